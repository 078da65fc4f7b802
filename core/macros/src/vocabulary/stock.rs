//! Terms of stock.
use proc_macro2::TokenStream;
use quote::quote;

pub(super) fn terms() -> TokenStream {
    quote! {
        /// Length of the bar: 1 m or 1 ft for its mass per metre or per foot.
        #[positive] bar_mass_length: Length,
        /// Pieces wanted, all good.
        #[non_negative] #[whole] quantity: Count,
    }
}
