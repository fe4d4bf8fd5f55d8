//! How records leave the server and come to another.

mod whole_hostile;
mod whole_known;
mod whole_program;
mod whole_round;
mod whole_timelines;
