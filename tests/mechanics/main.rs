//! The mechanics against published examples and tables, an independent reference, and laws that
//! must hold for every rig.

mod cargo;
mod couplings;
mod extent;
mod laws;
mod published;
mod random;
mod reference;
mod rigs;
mod support;
mod tables;
mod tyre_codes;
mod tyre_tables;
