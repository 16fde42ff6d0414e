//! Lists the packs under `rules/` for building into the program.

use std::fs;
use std::path::{Path, PathBuf};
use std::{env, io};

fn main() -> io::Result<()> {
    let root = PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").unwrap_or_default());
    let mut files = Vec::new();
    collect(&root.join("rules"), &mut files)?;
    files.sort();
    let mut list = String::from("&[\n");
    for file in &files {
        let shown = file
            .strip_prefix(&root)
            .unwrap_or(file)
            .display()
            .to_string()
            .replace('\\', "/");
        list.push_str(&format!("    ({shown:?}, include_str!({file:?})),\n"));
    }
    list.push_str("]\n");
    let out = PathBuf::from(env::var_os("OUT_DIR").unwrap_or_default());
    fs::write(out.join("packs.rs"), list)?;
    println!("cargo::rerun-if-changed=rules");
    println!("cargo::rerun-if-changed=build.rs");
    Ok(())
}

fn collect(folder: &Path, files: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            collect(&path, files)?;
        } else if path.extension().is_some_and(|e| e == "yaml") {
            files.push(path);
        }
    }
    Ok(())
}
