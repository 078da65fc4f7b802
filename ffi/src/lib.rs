//! Versions of the library. This crate is the C interface of `tenths`, from which `include/tenths.h` is generated; what
//! calls promise is documented there.
//!
//! Every pointer that C hands over is null or valid for what its function reads and writes; null is checked.
#![allow(unsafe_code, non_camel_case_types)]
#![allow(clippy::too_many_arguments, reason = "arguments of one call, as in the other interfaces")]

mod allocation;
mod arithmetic;
mod batch;
mod best_cut;
mod capability;
mod chatter;
mod clamping;
mod control_chart;
mod cost;
mod cutting_plan;
mod decision;
mod describe;
mod distribution;
mod draft;
mod export;
#[rustfmt::skip]
mod exports;
mod first_article;
mod fit;
mod form;
mod formula;
#[rustfmt::skip]
mod formulas;
mod function;
#[rustfmt::skip]
mod functions;
mod gauge;
mod gauge_study;
mod geared_head;
mod guard;
mod handle;
mod joint;
mod knurl;
mod limits;
mod locating;
mod machine;
mod material;
mod object;
#[rustfmt::skip]
mod objects;
mod option;
#[rustfmt::skip]
mod options;
mod path_feeds;
mod plan;
mod position;
mod process;
mod propagate;
mod quote;
mod sample;
mod sampling_plan;
mod solve;
mod stack;
mod status;
mod stock;
mod taper;
mod taylor;
mod text;
mod texts;
mod thread;
mod tolerance_chart;
mod uncertainty;
mod vector_loop;
mod watch;

use std::ffi::c_char;

/// Version of the binary interface that this header describes; compare it with `tenths_abi_version()`.
pub const TENTHS_ABI_VERSION: u32 = 3;

/// Version of the binary interface of the loaded library.
#[unsafe(no_mangle)]
pub extern "C" fn tenths_abi_version() -> u32 {
    TENTHS_ABI_VERSION
}

/// Version of the loaded library, such as `0.1.0`: a constant text, not to be freed.
#[unsafe(no_mangle)]
pub extern "C" fn tenths_version() -> *const c_char {
    const VERSION: &str = concat!(env!("CARGO_PKG_VERSION"), "\0");
    VERSION.as_ptr().cast()
}
