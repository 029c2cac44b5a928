//! Job and shop files as the user wrote them, their faults and their schema.
