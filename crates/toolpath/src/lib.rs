//! What each bit does on each sheet: passes, ramps, tabs, order.
