//! How large the file is, and how it is made smaller.

use std::{io::Write, num::NonZeroU64, path::Path};

use flate2::{Compression, write::GzEncoder};
use lzma_rust2::{LzmaOptions, LzmaWriter};
use zopfli::{Format, Options};

const ROUNDS: NonZeroU64 = NonZeroU64::new(5).unwrap();
/// The slowest of LZMA's presets, and the smallest.
const PRESET: u32 = 9;

/// One line for the file and each of its parts: bytes, and bytes after gzip.
pub fn report(out: &Path, parts: &[(&str, &[u8])]) -> String {
    let mut text = format!("{}\n", out.display());
    for (name, bytes) in parts {
        text +=
            &format!("{name:>8} {:>9} bytes, {:>9} gzipped\n", grouped(bytes.len()), grouped(gzipped(bytes)));
    }
    text
}

/// The bytes as LZMA, which the first module of the file unpacks: a quarter fewer than as gzip.
pub fn packed(bytes: &[u8]) -> Result<Vec<u8>, String> {
    let mut options = LzmaOptions::with_preset(PRESET);
    // a module is bytes without any alignment: what stood just before tells more than where something stands
    (options.lc, options.pb) = (4, 0);
    options.nice_len = LzmaOptions::NICE_LEN_MAX;
    let say = |error: std::io::Error| error.to_string();
    let mut writer =
        LzmaWriter::new_use_header(Vec::new(), &options, Some(bytes.len() as u64)).map_err(say)?;
    writer.write_all(bytes).and_then(|()| writer.finish()).map_err(say)
}

/// The bytes as gzip, as few as it can make of them; takes some seconds.
pub fn packed_for_browser(bytes: &[u8]) -> Result<Vec<u8>, String> {
    let mut packed = Vec::new();
    // more rounds gain less than a thousandth
    let options = Options { iteration_count: ROUNDS, ..Options::default() };
    zopfli::compress(options, Format::Gzip, bytes, &mut packed).map_err(|error| error.to_string())?;
    Ok(packed)
}

/// The bytes after the gzip of a server or a mail program.
fn gzipped(bytes: &[u8]) -> usize {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(bytes).and_then(|()| encoder.finish()).map_or(0, |gzipped| gzipped.len())
}

/// 1234567 as "1 234 567".
fn grouped(number: usize) -> String {
    let digits = number.to_string();
    let mut text = String::new();
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            text.push(' ');
        }
        text.push(digit);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_stand_in_threes() {
        assert_eq!(grouped(0), "0");
        assert_eq!(grouped(999), "999");
        assert_eq!(grouped(1_234_567), "1 234 567");
    }

    #[test]
    fn what_repeats_is_packed_smaller() {
        assert!(gzipped(&[b'a'; 10_000]) < 100);
    }
}
