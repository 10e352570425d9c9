//! Tests of the example film as others see it.
