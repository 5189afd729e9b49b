//! The cases in which a sheet judges or computes the same more than once.

use crate::engine::sheet::Named;

/// The RO makes product.
pub const RUNNING: Named = Named { id: "running", name: "running" };
/// The RO flushes.
pub const FLUSH: Named = Named { id: "flush", name: "flush" };
/// The RO makes product, and the filters are as loaded as they may be.
pub const RUNNING_LOADED: Named = Named { id: "running-loaded", name: "running, filters loaded" };
/// The RO flushes, and the filters are as loaded as they may be.
pub const FLUSH_LOADED: Named = Named { id: "flush-loaded", name: "flush, filters loaded" };
/// In the coldest water of the year.
pub const COLDEST: Named = Named { id: "coldest", name: "coldest" };
/// In the warmest water of the year.
pub const WARMEST: Named = Named { id: "warmest", name: "warmest" };
/// Today.
pub const TODAY: Named = Named { id: "today", name: "today" };
/// When the RO was new, or its membrane.
pub const START_UP: Named = Named { id: "start-up", name: "start-up" };
/// The water that the RO is fed with.
pub const FEED: Named = Named { id: "feed", name: "feed" };
/// What the RO sends to the drain.
pub const REJECT: Named = Named { id: "reject", name: "reject" };
/// The least that it may be.
pub const LEAST: Named = Named { id: "least", name: "least" };
/// The most that it may be.
pub const MOST: Named = Named { id: "most", name: "most" };
