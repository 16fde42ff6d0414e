"""Records statics solved by general libraries, for the tests of the mechanics.

Made with SymPy 1.14.0, anaStruct 1.7.0, NumPy 2.4.6 and SciPy 1.17.1, Python 3.11
(pip install sympy==1.14.0 anastruct==1.7.0 numpy==2.4.6 scipy==1.17.1):

    python mechanics_reference.py > mechanics_reference.json

- trailers: a beam on ball and axle group with point loads; reactions exact, by SymPy's beams.
- rigid_axles: a stiff beam pinned at the coupler on two or three equal springs, by anaStruct's
  finite elements.
- vehicles: a beam on two axles with a load on the overhang, by SymPy's beams.
- spring_bars: towing vehicle and trailer as two bodies joined at the ball, with the bars' moment
  between them; four equilibrium equations by NumPy.
- sliding, tipping: the greatest sideways or forward acceleration, in shares of gravity, that an
  item stands with its tie-downs; forces as vectors, the limit by SciPy's linear programming.

Weights are in pounds, distances in inches, forces in newtons, angles in degrees.
"""

import json
import random

import numpy as np
from anastruct import SystemElements
from scipy.optimize import linprog
from sympy import Rational, symbols
from sympy.physics.continuum_mechanics.beam import Beam

random.seed(12195)
G = 9.81


def beam_reactions(length, supports, loads):
    """Reactions, upward, of a straight beam on two supports under downward point loads."""
    first, second = symbols("first second")
    beam = Beam(length, 1, 1)
    for force, at in zip((first, second), supports):
        beam.apply_load(-force, at, -1)
    for weight, at in loads:
        beam.apply_load(weight, at, -1)
    for at in supports:
        beam.bc_deflection.append((at, 0))
    beam.solve_for_reaction_loads(first, second)
    return [beam.reaction_loads[s] for s in (first, second)]


def trailers(count):
    out = []
    for _ in range(count):
        to_axles = random.randint(80, 300)
        empty = random.randint(300, 6000)
        empty_at = to_axles - Rational(random.randint(0, to_axles * 25), 100)
        items = [
            [random.randint(20, 4000), random.randint(1, to_axles + 90)]
            for _ in range(random.randint(0, 5))
        ]
        length = to_axles + 100
        empty_only = beam_reactions(length, (0, to_axles), [(empty, empty_at)])
        tongue, axles = beam_reactions(
            length, (0, to_axles), [(empty, empty_at), *[tuple(i) for i in items]]
        )
        out.append(
            {
                "to_axles": to_axles,
                "empty": empty,
                "empty_tongue": str(empty_only[0]),
                "items": items,
                "tongue": float(tongue),
                "axles": float(axles),
            }
        )
    return out


def rigid_axles(count):
    out = []
    for _ in range(count):
        axles = random.choice((2, 3))
        first = random.randint(100, 240)
        spacing = random.randint(30, 48)
        positions = [first + spacing * i for i in range(axles)]
        weight, at = random.randint(500, 12000), random.randint(60, positions[-1])
        stops = sorted({0, at, *positions})
        system = SystemElements(EA=1e9, EI=1e9)
        for a, b in zip(stops, stops[1:]):
            system.add_element([[a, 0], [b, 0]])
        node = {stop: n + 1 for n, stop in enumerate(stops)}
        system.add_support_hinged(node[0])
        for p in positions:
            system.add_support_spring(node[p], translation=2, k=0.001)
        system.point_load(node[at], Fy=-weight)
        system.solve()
        reaction = {n: abs(system.get_node_results_system(n)["Fy"]) for n in node.values()}
        loads = [reaction[node[p]] for p in positions]
        out.append(
            {
                "positions": positions,
                "weight": weight,
                "at": at,
                "tongue": weight - sum(loads),
                "axles": loads,
            }
        )
    return out


def vehicles(count):
    out = []
    for _ in range(count):
        wheelbase = random.randint(95, 180)
        overhang = random.choice([random.randint(30, 70), random.randint(-12, 0)])
        front, rear = random.randint(1500, 4500), random.randint(1200, 4500)
        tongue = random.randint(50, 2500)
        length = wheelbase + max(overhang, 0) + 1
        loads = [(front, 0), (rear, wheelbase), (tongue, wheelbase + overhang)]
        on_front, on_rear = beam_reactions(length, (0, wheelbase), loads)
        out.append(
            {
                "wheelbase": wheelbase,
                "overhang": overhang,
                "front": front,
                "rear": rear,
                "tongue": tongue,
                "front_hitched": float(on_front),
                "rear_hitched": float(on_rear),
            }
        )
    return out


def spring_bars(count):
    out = []
    for _ in range(count):
        a, b, l = random.randint(100, 170), random.randint(35, 65), random.randint(120, 280)
        front, rear = random.randint(2000, 3500), random.randint(1500, 3500)
        weight, centre = random.randint(2500, 9000), 0
        centre = l - random.uniform(0.09, 0.15) * l

        def solve(moment):
            # Unknown: front, rear, ball, trailer axles. The bars press the front down.
            rows = [
                [1, 1, -1, 0],
                [0, a, -(a + b), 0],
                [0, 0, 1, 1],
                [0, 0, 0, l],
            ]
            right = [
                front + rear,
                rear * a - moment,
                weight,
                weight * centre + moment,
            ]
            return np.linalg.solve(np.array(rows, float), np.array(right, float))

        slack, set_up = solve(0.0), solve(random.uniform(3000, 30000))
        out.append(
            {
                "wheelbase": a,
                "overhang": b,
                "to_axles": l,
                "front": front,
                "rear": rear,
                "tongue": slack[2],
                "to_front": set_up[0] - slack[0],
                "to_trailer": set_up[3] - slack[3],
                "front_hitched": set_up[0],
                "rear_hitched": set_up[1],
            }
        )
    return out


def pull(force, alpha, beta):
    """A tie-down's pull on the item: x along the way that it holds back, y aside, z up."""
    a, b = np.radians(alpha), np.radians(beta)
    return force * np.array([-np.cos(a) * np.cos(b), np.cos(a) * np.sin(b), -np.sin(a)])


def greatest(mass, friction, forces):
    """The greatest c at which c m g = friction force + what the tie-downs hold back."""
    total = np.sum(forces, axis=0) if forces else np.zeros(3)
    normal = mass * G - total[2]
    # Variables: c and the friction force; maximise c.
    answer = linprog(
        [-1, 0],
        A_eq=[[mass * G, -1]],
        b_eq=[-total[0]],
        bounds=[(0, None), (0, friction * normal)],
    )
    return float(answer.x[0])


def sliding(count):
    out = []
    for i in range(count):
        mass = random.randint(200, 6000)
        friction = random.randint(10, 45) / 100
        n = random.randint(1, 6)
        alpha = random.randint(5, 90)
        case = {"mass": mass, "friction": friction, "count": n, "alpha": alpha}
        if i % 2:
            tension = random.randint(1000, 5000)
            legs = [pull(tension, alpha, 90), pull(tension, alpha, -90)] * n
            case |= {"tension": tension, "holds": greatest(mass, friction, legs)}
        else:
            capacity, beta = random.randint(5000, 40000), random.randint(0, 80)
            eased = 0.75 * friction
            # Pairs, one to each side.
            legs = [pull(capacity, alpha, beta), pull(capacity, alpha, -beta)] * n
            case |= {"capacity": capacity, "beta": beta, "holds": greatest(mass, eased, legs)}
        out.append(case)
    return out


def tipping(count):
    out = []
    for _ in range(count):
        mass, width = random.randint(200, 3000), random.uniform(0.4, 1.6)
        height = random.uniform(0.9, 2.0) * width
        n, alpha, tension = random.randint(1, 4), random.randint(40, 90), random.randint(500, 4000)
        # About the edge: the legs' upper ends lie at the two top corners.
        edge = np.array([0.0, 0.0])
        moment = 0.0
        for corner, out_sign in ((np.array([0.0, 2 * height]), 1), (np.array([width, 2 * height]), -1)):
            a = np.radians(alpha)
            force = n * tension * np.array([-out_sign * np.cos(a), -np.sin(a)])
            arm = corner - edge
            moment += arm[0] * force[1] - arm[1] * force[0]
        weight = mass * G
        limit = (weight * width / 2 - moment) / (weight * height)
        out.append(
            {
                "mass": mass,
                "width": width,
                "height": height,
                "count": n,
                "alpha": alpha,
                "tension": tension,
                "holds": float(limit),
            }
        )
    return out


print(
    json.dumps(
        {
            "libraries": "SymPy 1.14.0, anaStruct 1.7.0, NumPy 2.4.6, SciPy 1.17.1",
            "trailers": trailers(24),
            "rigid_axles": rigid_axles(12),
            "vehicles": vehicles(16),
            "spring_bars": spring_bars(10),
            "sliding": sliding(24),
            "tipping": tipping(10),
        },
        indent=1,
    )
)
