//! Records leaving and entering as files.

mod csv_import;
mod csv_lists;
