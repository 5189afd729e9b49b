//! The first, small module of the finished file: it unpacks the program, which is packed tighter than any browser unpacks.

use std::io::Read;

use lzma_rust2::LzmaReader;
use wasm_bindgen::prelude::wasm_bindgen;

/// No limit of its own on the memory: what it unpacks lies in the same file.
const NO_LIMIT: u32 = u32::MAX;

/// The bytes that an LZMA file (with its header) holds; none if it is damaged.
#[wasm_bindgen]
pub fn unpacked(packed: &[u8]) -> Option<Vec<u8>> {
    let mut bytes = Vec::new();
    let mut reader = LzmaReader::new_mem_limit(packed, NO_LIMIT, None).ok()?;
    reader.read_to_end(&mut bytes).ok()?;
    Some(bytes)
}
