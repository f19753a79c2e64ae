//! Built-in houses of the harbour pilots of Gannet Sound (invented).
