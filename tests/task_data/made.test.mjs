// What another library of the standard writes, read by the importer: `TASK_DATA` names the program that prints what it read.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, test } from "node:test";
import JSZip from "jszip";
import { ISOXMLManager } from "isoxml";
import { made } from "./made.mjs";

const place = mkdtempSync(join(tmpdir(), "task-data-"));
after(() => rmSync(place, { recursive: true }));

function read(name, bytes) {
  const path = join(place, name);
  writeFileSync(path, bytes);
  return JSON.parse(execFileSync(process.env.TASK_DATA, [path], { encoding: "utf8" }));
}

// The library stores its files in the zip as they are; most programs pack them.
async function shapes(zip) {
  const files = await JSZip.loadAsync(zip);
  const plain = await files.file("TASKDATA/TASKDATA.XML").async("uint8array");
  const packed = await files.generateAsync({ type: "uint8array", compression: "DEFLATE" });
  return { stored: zip, packed, plain };
}

for (const version of [3, 4]) {
  for (let seed = 1; seed <= 10; seed += 1) {
    test(`version ${version}, file ${seed}`, async () => {
      const file = await made(seed, version);
      // The library's own reading of what it wrote finds nothing wrong, so that the file is one.
      const again = new ISOXMLManager();
      await again.parseISOXMLFile(file.zip, "application/zip");
      assert.deepEqual(again.getWarnings(), []);
      const results = Object.entries(await shapes(file.zip)).map(([shape, bytes]) => [shape, read(shape, bytes)]);
      for (const [shape, found] of results) {
        assert.deepEqual(found, results[0][1], `${shape} is read as ${results[0][0]}`);
      }
      agrees(results[0][1], file, version);
    });
  }
}

function agrees({ task_data: found, rates }, file, version) {
  assert.equal(found.version[0], version);
  assert.equal(found.fields[0].name, file.field);
  assert.equal(found.customers[0].last, file.customer);
  assert.deepEqual(found.tasks.map((task) => task.id), file.expected.map(({ task }) => task));
  for (const [at, { tanks }] of file.expected.entries()) {
    const task = found.tasks[at];
    assert.deepEqual(task.faults, []);
    assert.equal(task.sown.length, tanks.length);
    for (const [number, tank] of tanks.entries()) {
      const sown = task.sown[number];
      assert.equal(sown.element, tank.element);
      assert.equal(sown.product, tank.product);
      assert.equal(sown.area_m2, tank.area_m2);
      assert.equal(sown.mass_g, tank.mass_g);
      assert.equal(sown.revolutions_e4, tank.revolutions_e4);
      assert.deepEqual(sown.setpoint, { mass: tank.target });
      assert.equal(sown.balance.filled_g, tank.filled_g);
      assert.deepEqual(sown.faults, []);
      assert.equal(task.effective.sessions, tank.sessions);
      assert.equal(task.effective.seconds, tank.seconds);
      const rate = rates.find((rate) => rate.task === task.id && rate.element === tank.element);
      const expected = (tank.mass_g / 1000 / tank.area_m2) * 1e4;
      assert.ok(Math.abs(rate.machine_kg_per_ha / expected - 1) < 1e-12);
    }
  }
}
