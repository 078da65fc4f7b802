//! Which way a tie is rounded.
use tenths_macros::Choice;

/// How a tie is rounded; what lies nearer to one side always goes there.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default, Choice)]
pub enum Rounding {
    /// To the even last digit: 0.125 gives 0.12 and 0.135 gives 0.14.
    #[default]
    HalfEven,
    /// Away from zero: 0.125 gives 0.13 and -0.125 gives -0.13.
    HalfUp,
}
