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
/// Turbidity of the feed.
pub const TURBIDITY: Named = Named { id: "turbidity", name: "turbidity" };
/// Silt density index of the feed.
pub const SDI: Named = Named { id: "sdi", name: "silt density index" };
/// Free chlorine of the feed.
pub const FREE_CHLORINE: Named = Named { id: "free-chlorine", name: "free chlorine" };
/// pH of the feed.
pub const PH: Named = Named { id: "ph", name: "pH" };
/// Hardness of the feed.
pub const HARDNESS: Named = Named { id: "hardness", name: "hardness" };
/// Iron in the feed.
pub const IRON: Named = Named { id: "iron", name: "iron" };
/// Manganese in the feed.
pub const MANGANESE: Named = Named { id: "manganese", name: "manganese" };

/// Every one of them.
pub const ALL: &[Named] = &[
    RUNNING,
    FLUSH,
    RUNNING_LOADED,
    FLUSH_LOADED,
    COLDEST,
    WARMEST,
    TODAY,
    START_UP,
    FEED,
    REJECT,
    LEAST,
    MOST,
    TURBIDITY,
    SDI,
    FREE_CHLORINE,
    PH,
    HARDNESS,
    IRON,
    MANGANESE,
];
