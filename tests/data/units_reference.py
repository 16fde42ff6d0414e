"""Records conversions made by Pint, a general units library, for the tests of quantities.

Made with Pint 0.25.3 (pip install pint==0.25.3), Python 3.11:

    python units_reference.py > units_reference.json

Each record says how many base units (kg, m, m/s, Pa, s, degree, N, 1) some amounts of a unit
are, as Pint's floating-point arithmetic gives it. Pint's year is the Julian one (365.25 days);
the mean Gregorian year is asked for as 365.2425 of its days.
"""

import json

import pint

UNITS = {
    "lb": ("pound", "kilogram"),
    "oz": ("ounce", "kilogram"),
    "kg": ("kilogram", "kilogram"),
    "g": ("gram", "kilogram"),
    "t": ("metric_ton", "kilogram"),
    "short ton": ("short_ton", "kilogram"),
    "ft": ("foot", "meter"),
    "in": ("inch", "meter"),
    "yd": ("yard", "meter"),
    "m": ("meter", "meter"),
    "cm": ("centimeter", "meter"),
    "mm": ("millimeter", "meter"),
    "km": ("kilometer", "meter"),
    "mi": ("mile", "meter"),
    "mph": ("mile / hour", "meter / second"),
    "km/h": ("kilometer / hour", "meter / second"),
    "m/s": ("meter / second", "meter / second"),
    "ft/s": ("foot / second", "meter / second"),
    "psi": ("psi", "pascal"),
    "Pa": ("pascal", "pascal"),
    "kPa": ("kilopascal", "pascal"),
    "bar": ("bar", "pascal"),
    "s": ("second", "second"),
    "min": ("minute", "second"),
    "h": ("hour", "second"),
    "days": ("day", "second"),
    "months": ("365.2425 / 12 * day", "second"),
    "years": ("365.2425 * day", "second"),
    "deg": ("degree", "degree"),
    "lbf": ("force_pound", "newton"),
    "N": ("newton", "newton"),
    "daN": ("decanewton", "newton"),
    "kN": ("kilonewton", "newton"),
    "%": ("percent", "dimensionless"),
}
AMOUNTS = ["0.001", "1", "3.7", "65", "12345.678", "80000"]

registry = pint.UnitRegistry()
records = []
for symbol, (unit, base) in UNITS.items():
    in_base = [
        (float(amount) * registry.parse_expression(unit)).to(base).magnitude for amount in AMOUNTS
    ]
    records.append({"unit": symbol, "amounts": AMOUNTS, "in_base": in_base})
print(json.dumps({"library": "Pint", "version": pint.__version__, "records": records}, indent=1))
