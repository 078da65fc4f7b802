//! Gives the shared library its name for the loader, which a plain cargo build leaves out.
use std::env::var;

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    // Until 1.0 a minor version may break callers.
    let (major, minor) = (env!("CARGO_PKG_VERSION_MAJOR"), env!("CARGO_PKG_VERSION_MINOR"));
    let argument = match var("CARGO_CFG_TARGET_OS").as_deref() {
        Ok("linux") => format!("-Wl,-soname,libtenths.so.{major}.{minor}"),
        Ok("macos") => format!("-Wl,-install_name,@rpath/libtenths.{major}.{minor}.dylib"),
        _ => return,
    };
    println!("cargo::rustc-cdylib-link-arg={argument}");
}
