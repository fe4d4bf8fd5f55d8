//! Records leaving and entering as files.

mod csv_import;
pub(crate) mod csv_lists;
mod task_data_api;
mod task_data_pages;
mod whole_hostile;
mod whole_known;
mod whole_program;
pub(crate) mod whole_round;
mod whole_timelines;

use crate::world::{Person, World};
use serde_json::{Value, json};

/// The example file of task data; its source stands in `core/tests/task_data/example.rs`.
pub(crate) const EXAMPLE: &str = include_str!("../task_data/example/TASKDATA/TASKDATA.XML");

/// The same tasks as another program would write them: other ids, another order, a file of its own.
fn renumbered() -> String {
    EXAMPLE.replace("TSK1", "TSK91").replace("PDT1", "PDT71").replace("DET3", "DET83").replace("PFD1", "PFD4")
}

/// The seeders of the example's two tanks, and the lots that were in them.
struct Yard {
    ana: Person,
    units: [String; 2],
    lots: [String; 2],
}

impl Yard {
    async fn new(world: &World) -> Self {
        Self::of(world, world.ana().await).await
    }

    /// In an organization that is there.
    async fn of(world: &World, ana: Person) -> Self {
        let (seed, granulate) = (
            crate::seed::drill(world, &ana, "Cart, seed").await,
            crate::seed::drill(world, &ana, "Cart, granulate").await,
        );
        let wheat = crate::seed::lot(&ana, "W-117", json!({})).await;
        let starter =
            crate::seed::lot(&ana, "S-1", json!({ "material": "fertilizer", "crop": "starter", "variety": null }))
                .await;
        Self { ana, units: [seed.unit, granulate.unit], lots: [wheat, starter] }
    }

    /// Says what the example's machine and products are here, as a program does.
    async fn match_all(&self) {
        let device = "A000840000200001/SN-0042";
        let matches = json!({ "matches": [
            { "kind": "unit", "name": format!("{device}#3"), "id": self.units[0] },
            { "kind": "unit", "name": format!("{device}#4"), "id": self.units[1] },
            { "kind": "lot", "name": "Wheat lot 24-117", "id": self.lots[0] },
            { "kind": "lot", "name": "Starter granulate", "id": self.lots[1] },
        ] });
        let answer = self.ana.put("/imports/task-data/matches", matches).await;
        assert_eq!(answer.status, 200, "{}", answer.text);
    }

    /// Sends a file.
    async fn import(&self, file: &str, query: &str) -> Value {
        let answer = self.ana.post_text(&format!("/imports/task-data{query}"), file.to_owned()).await;
        assert_eq!(answer.status, 200, "{}", answer.text);
        answer.json()
    }

    /// The jobs of one of the two units.
    async fn jobs(&self, unit: usize) -> Vec<Value> {
        let list = self.ana.read(&format!("/metering-units/{}/jobs", self.units[unit])).await;
        list["items"].as_array().expect("items").clone()
    }
}

/// What became of each line.
fn outcomes(answer: &Value) -> Vec<&str> {
    answer["lines"]
        .as_array()
        .expect("lines")
        .iter()
        .map(|line| line["outcome"].as_str().expect("an outcome"))
        .collect()
}
