//! The C header, from the sources of the C face.
use crate::Text;
use std::path::Path;

pub(crate) fn header(root: &Path) -> Text {
    let ffi = root.join("ffi");
    let config = cbindgen::Config::from_file(ffi.join("cbindgen.toml"))?;
    let mut text = vec![];
    cbindgen::Builder::new().with_crate(ffi).with_config(config).generate()?.write(&mut text);
    Ok(String::from_utf8(text)?)
}
