//! The plan from outside: the example film's figures, and searches against every way
//! there is.

mod every_way;
mod stock_figures;
