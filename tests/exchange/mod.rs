//! Records leaving and entering as files.

mod csv_lists;
