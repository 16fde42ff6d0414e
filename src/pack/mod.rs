//! Packs of rules: read, validated, and kept in a library.

mod amount;
mod cases_aside;
mod codes;
mod condition;
mod keys;
mod library;
mod model;
mod read;
mod read_rule;
mod read_source;
mod regions;
mod route;
mod schema;
mod skeleton;
mod words;

pub use amount::{amount_type, type_name};
pub use codes::CODES;
pub use library::{Library, PackText, id_of_path, pack_files};
pub use model::{
    Adoption, Amount, AmountKind, AmountType, Authority, Case, Condition, ConditionKind,
    Definition, LeftOut, Look, Pack, PackNote, Period, Rule, Source, Spanned, Standing,
};
pub use read::{COMMON_PRACTICE, PACK_FORMAT, read_pack, read_pack_fully, read_pack_tree};
pub use read_rule::is_slug;
pub use regions::{REGIONS, Region};
pub use route::Asked;
pub use schema::{pack_schema, pack_validator};
pub use skeleton::{pack_id, skeleton};
pub use words::{Comparison, Reading, Topic};
