//! Packs of rules: read, validated, and kept in a library.

mod amount;
mod condition;
mod library;
mod model;
mod read;
mod regions;
mod route;
mod schema;
mod words;

pub use amount::{amount_type, type_name};
pub use library::{Library, PackText, id_of_path, pack_files};
pub use model::{
    Adoption, Amount, AmountKind, AmountType, Authority, Case, Condition, ConditionKind,
    Definition, LeftOut, Look, Pack, PackNote, Period, Rule, Source, Spanned, Standing,
};
pub use read::{COMMON_PRACTICE, PACK_FORMAT, is_slug, read_pack, read_pack_fully, read_pack_tree};
pub use regions::{REGIONS, Region};
pub use route::Asked;
pub use schema::{pack_schema, pack_validator};
pub use words::{Comparison, Reading, Topic};
