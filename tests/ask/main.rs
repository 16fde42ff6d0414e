//! The dialogue: it asks only what matters, in an order that needs few questions, and writes what the
//! report then says.

mod file;
mod oracle;
mod session;
#[cfg(unix)]
mod terminal;
