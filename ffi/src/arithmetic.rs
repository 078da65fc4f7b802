//! Rounding to nearest, no traps, and numbers below the normal range kept: what all arithmetic of the library counts
//! on, whatever mode the calling program has set.
//!
//! Reading the mode costs about as much as one multiplication; only an unusual mode is set aside and put back.

/// The modes that the calling program had, to be put back after a call.
pub(crate) struct CallersModes(Option<Word>);

impl CallersModes {
    /// Sets an unusual mode aside.
    #[inline(always)]
    pub(crate) fn set_aside() -> CallersModes {
        let word = read();
        match word & !FLAGS == USUAL {
            true => CallersModes(None),
            false => {
                exchange(USUAL);
                CallersModes(Some(word))
            }
        }
    }

    /// Puts it back, with the flags as they were.
    #[inline(always)]
    pub(crate) fn put_back(self) {
        if let Some(word) = self.0 {
            exchange(word);
        }
    }
}

/// Out of line, so that no arithmetic moves across it.
#[cold]
#[inline(never)]
fn exchange(word: Word) {
    write(word);
}

#[cfg(target_arch = "x86_64")]
use x86_64::{FLAGS, USUAL, Word, read, write};

/// The control and status register of SSE, as the manuals of the architecture describe it (MXCSR): bits 0 to 5 are
/// flags that stay set, 6 reads subnormal numbers as zero, 7 to 12 mask the traps, 13 and 14 choose the rounding, 15
/// writes subnormal numbers as zero.
#[cfg(target_arch = "x86_64")]
mod x86_64 {
    use std::arch::asm;

    pub(super) type Word = u32;
    pub(super) const FLAGS: Word = 0x3f;
    pub(super) const USUAL: Word = 0x1f80;

    #[inline(always)]
    pub(super) fn read() -> Word {
        let mut word = 0;
        // SAFETY: it stores four bytes to `word`.
        unsafe { asm!("stmxcsr [{}]", in(reg) &raw mut word, options(nostack, preserves_flags)) };
        word
    }

    pub(super) fn write(word: Word) {
        // SAFETY: it loads four bytes of `word`, which hold no bit that is reserved: they were read from there, or are
        // the usual ones.
        unsafe { asm!("ldmxcsr [{}]", in(reg) &raw const word, options(nostack, preserves_flags)) };
    }
}

#[cfg(target_arch = "aarch64")]
use aarch64::{FLAGS, USUAL, Word, read, write};

/// The control register of the architecture's manual (FPCR): all bits are zero for rounding to nearest without traps.
/// The flags are in a register of their own.
#[cfg(target_arch = "aarch64")]
mod aarch64 {
    use std::arch::asm;

    pub(super) type Word = u64;
    pub(super) const FLAGS: Word = 0;
    pub(super) const USUAL: Word = 0;

    #[inline(always)]
    pub(super) fn read() -> Word {
        let word;
        // SAFETY: it reads a register that every program may read.
        unsafe { asm!("mrs {}, fpcr", out(reg) word, options(nomem, nostack, preserves_flags)) };
        word
    }

    pub(super) fn write(word: Word) {
        // SAFETY: the word was read from there, or is the usual one.
        unsafe { asm!("msr fpcr, {}", in(reg) word, options(nostack, preserves_flags)) };
    }
}

#[cfg(not(any(target_arch = "x86_64", target_arch = "aarch64")))]
use elsewhere::{FLAGS, USUAL, Word, read, write};

/// Elsewhere a caller must have the usual mode.
#[cfg(not(any(target_arch = "x86_64", target_arch = "aarch64")))]
mod elsewhere {
    pub(super) type Word = u32;
    pub(super) const FLAGS: Word = 0;
    pub(super) const USUAL: Word = 0;

    pub(super) fn read() -> Word {
        USUAL
    }

    pub(super) fn write(_: Word) {}
}
