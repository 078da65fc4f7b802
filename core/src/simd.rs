//! Loops compiled for the widest registers that the processor has.
//!
//! Rust never contracts `a * b + c` nor reorders sums, so the bits are the same on every path.
#![allow(unsafe_code)]

/// A piece of work whose loops gain from wide registers. `run` is inlined into a copy for each instruction set, and
/// must be marked `#[inline(always)]`.
pub(crate) trait WideLoop {
    type Output;
    fn run(self) -> Self::Output;
}

/// Runs it on the widest instruction set.
#[inline]
pub(crate) fn run_wide<W: WideLoop>(work: W) -> W::Output {
    #[cfg(target_arch = "x86_64")]
    match instruction_set() {
        // SAFETY: the processor has AVX2.
        1 => return unsafe { run_avx2(work) },
        // SAFETY: the processor has these parts of AVX-512.
        2 => return unsafe { run_avx512(work) },
        _ => {}
    }
    work.run()
}

#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx2")]
fn run_avx2<W: WideLoop>(work: W) -> W::Output {
    work.run()
}

#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx512f,avx512dq,avx512vl")]
fn run_avx512<W: WideLoop>(work: W) -> W::Output {
    work.run()
}

/// How many there are to choose from: the plain one, AVX2 with fused products, AVX-512.
#[cfg(target_arch = "x86_64")]
pub(crate) const INSTRUCTION_SETS: usize = 3;
#[cfg(not(target_arch = "x86_64"))]
pub(crate) const INSTRUCTION_SETS: usize = 1;

/// The widest instruction set that this processor has, zero being the least: the one place that looks.
#[inline]
pub(crate) fn instruction_set() -> usize {
    #[cfg(target_arch = "x86_64")]
    if is_x86_feature_detected!("avx2") && is_x86_feature_detected!("fma") {
        let wider = is_x86_feature_detected!("avx512f")
            && is_x86_feature_detected!("avx512dq")
            && is_x86_feature_detected!("avx512vl");
        return if wider { 2 } else { 1 };
    }
    0
}

/// Bytes that memory hands over at once.
pub(crate) const LINE: usize = 64;

/// Calls a line of memory into the cache, wherever it lies: a hint, which touches nothing.
#[inline(always)]
pub(crate) fn call_line(at: *const u8) {
    #[cfg(target_arch = "x86_64")]
    // SAFETY: no access is made at any address.
    unsafe {
        use std::arch::x86_64::{_MM_HINT_T0, _mm_prefetch};
        _mm_prefetch::<_MM_HINT_T0>(at.cast());
    }
    #[cfg(not(target_arch = "x86_64"))]
    let _ = at;
}
