//! What the checks share.
