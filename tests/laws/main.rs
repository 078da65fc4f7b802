//! Laws that hold for every formula of the registry. None is named here: a new formula is judged by itself.
mod batch;
mod dimensions;
mod domains;
mod moves;
mod rows;
mod solving;
mod words;
