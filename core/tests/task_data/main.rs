//! Files of task data (ISO 11783-10): what is read, and what is refused.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic)] // A test that cannot go on has failed.

mod edges;
mod example;
mod hostile;
mod named;
mod packed;
mod rules;
mod sentences;
mod times;
mod weighed;

use sowmark_core::task_data::{self, Finding, Refused, Task, TaskData, What};

/// The example file; its source stands in `example`.
const EXAMPLE: &str = include_str!("../../../tests/task_data/example/TASKDATA/TASKDATA.XML");

fn read(text: &str) -> TaskData {
    task_data::read(text.as_bytes()).unwrap_or_else(|refused| panic!("{refused}"))
}

fn refused(bytes: &[u8]) -> Finding {
    let Refused(finding) = task_data::read(bytes).expect_err("a file that is refused");
    finding
}

/// A file whose one machine (frame 1, tank 2 within it) counts area and mass, with a task 1.
fn file(task: &str) -> String {
    wrapped(&format!(r#"<TSK A="TSK1" B="Wheat" E="PFD1" G="4" H="1">{task}</TSK>"#))
}

/// The same with whole tasks.
fn wrapped(tasks: &str) -> String {
    format!(
        r#"<?xml version="1.0" encoding="UTF-8"?>
<ISO11783_TaskData VersionMajor="4" VersionMinor="2" DataTransferOrigin="2">
<PFD A="PFD1" C="Long Acre" D="124000"/>
<PDT A="PDT1" B="Wheat" E="004B"/><PDT A="PDT2" B="Rye" E="004B"/>
<DVC A="DVC1" B="Seeder" D="A000840000200001" E="7" F="31" G="FF">
<DET A="DET1" B="1" C="1" E="0" F="0"><DOR A="20"/></DET>
<DET A="DET2" B="2" C="3" E="1" F="1"><DOR A="21"/><DOR A="22"/><DOR A="23"/></DET>
<DPD A="20" B="0074" C="3" D="31"/><DPD A="21" B="0160" C="3" D="31"/><DPD A="22" B="0051" C="3" D="31"/>
<DPD A="23" B="010A" C="1" D="31"/>
</DVC>
{tasks}
</ISO11783_TaskData>"#
    )
}

/// An effective session of an hour that began at an hour of the second of October, with what stood on the counters.
fn session(hour: u32, area_m2: i64, grams: i64) -> String {
    format!(
        r#"<TIM A="2025-10-02T{hour:02}:00:00Z" B="2025-10-02T{:02}:00:00Z" D="4"><DLV A="0074" B="{area_m2}" C="DET1"/><DLV A="0160" B="{grams}" C="DET2"/></TIM>"#,
        hour + 1
    )
}

fn only_task(text: &str) -> Task {
    let mut tasks = read(text).tasks;
    assert_eq!(tasks.len(), 1);
    tasks.remove(0)
}

/// What is wrong with a task and with what was sown in it.
fn faults(task: &Task) -> Vec<What> {
    let all = task.faults.iter().chain(task.sown.iter().flat_map(|sown| &sown.faults));
    all.map(|fault| fault.what.clone()).collect()
}
