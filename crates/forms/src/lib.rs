//! The jigs and forms that build an arch, as parts to cut.
