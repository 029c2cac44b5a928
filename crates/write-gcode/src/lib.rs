//! RS-274/NGC: finished programs in, bytes out.
