//! A dialogue about a rig: what to ask next, the answers, and the rig file that comes of them.
//!
//! The text of the rig file is the state: an answer is written into it, and all that is known is read
//! from it again, so that what is reported at the end is what the file says.
//!
//! | module | concern |
//! |---|---|
//! | `session` | questions, answers, going back |
//! | `place` | where in the file an answer belongs, and what it becomes there |
//! | `told` | a question for people and for programs |

mod place;
mod session;
mod told;

pub use session::{Refusal, Session};
pub use told::{ASK_FORMAT, Told, questions_json, questions_schema};
