//! Reads a file of task data and prints what was found as JSON, with the rates that follow from it; exit code 1 and a line on
//! standard error for a file that is refused.

use serde_json::json;
use sowmark_core::task_data;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let path = std::env::args().nth(1).ok_or("name a file: TASKDATA.XML, or a zip that holds one")?;
    let read = task_data::read(&std::fs::read(path)?)?;
    let rates =
        read.tasks.iter().flat_map(|task| task.sown.iter().map(move |sown| (task, sown))).map(|(task, sown)| {
            json!({
                "task": task.id,
                "element": sown.element,
                "target_kg_per_ha": sown.target_rate().map(|rate| rate * 1e4),
                "machine_kg_per_ha": sown.machine_rate().map(|rate| rate * 1e4),
                "balance_kg_per_ha": sown.balance_rate().map(|rate| rate * 1e4),
                "machine_g_per_revolution": sown.machine_g_per_revolution(),
                "balance_g_per_revolution": sown.balance_g_per_revolution(),
            })
        });
    println!("{}", json!({ "task_data": read, "rates": rates.collect::<Vec<_>>() }));
    Ok(())
}
