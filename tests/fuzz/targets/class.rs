#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| outlean_fuzzed::class(data));
