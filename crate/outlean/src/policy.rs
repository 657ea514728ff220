//! What pages may load and run: the policy that they are served under, and that each says itself for hosts that say none.

use base64::{Engine, engine::general_purpose::STANDARD as BASE64};
use sha2::{Digest, Sha256};

/// The policy every page is written for: nothing from elsewhere, no inline script or style, wasm allowed.
pub const POLICY: &str = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'";

/// How a page says a policy. It stands before all that it is about.
pub fn said(policy: &str) -> String {
    format!("<meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">\n")
}

/// A page that says another policy in the place of the usual one.
pub fn under(page: &str, policy: &str) -> String {
    page.replacen(&said(POLICY), &said(policy), 1)
}

/// The usual one for a page that asks a record store besides, wherever that is.
pub fn with_store() -> String {
    format!("{POLICY}; connect-src 'self' https: http:")
}

/// What a policy calls a script or a style by that stands in the page.
pub fn named(content: &str) -> String {
    format!("'sha256-{}'", BASE64.encode(Sha256::digest(content)))
}
