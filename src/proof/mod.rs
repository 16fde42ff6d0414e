//! Proof that packs say what their authors meant: cases, slips that the cases must notice, and the
//! rigs that a rule can tell apart.

mod cases;
mod given;
mod mutants;
mod prove;
mod space;
mod witness;

pub use cases::{PreparedCase, check_cases, conflict_complaint, prepare_cases};
pub use given::given;
pub use mutants::{Change, Slip, SlipKind, Undo, apply, revert, slips, step_of};
pub use prove::{Proof, prove};
pub use space::{Candidate, Space, blank_rig, set};
pub use witness::{Verdict, find_witness};
