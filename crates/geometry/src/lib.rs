//! Lines, arcs, outlines and exact curves; parallels; tangent-arc fitting; the arches of the trade.
