//! Where the seed went, through the API and on its page: what each job came to and under which number, what should be left
//! of each lot and in each tank, the drift of a machine, and who sees what.

mod audit;
mod drift;
mod sight;
mod signing;
