//! Text with positions, and diagnostics.
