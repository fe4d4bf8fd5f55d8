// The phone's plain sums and its reading of a form, on the vectors that core and the server are held to as well
// (tests/calibration/shared.rs).
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';

const read = (path) => readFileSync(new URL(path, import.meta.url), 'utf8');
const script = (name) => import(`data:text/javascript,${encodeURIComponent(read(`../../static/${name}`))}`);
const { MASS, measured, number, revolutions, running, signed } = await script('sums.js');
const { tree } = await script('tree.js');

const near = (got, wanted, what) =>
  wanted === null ? assert.ok(Number.isNaN(got), what) : assert.ok(Math.abs(got - wanted) <= 1e-12 * Math.abs(wanted), `${what}: ${got}, not ${wanted}`);

for (const { name, how, repeats, expected } of JSON.parse(read('sums.json'))) {
  test(`sums: ${name}`, () => {
    const counting = { counts: how.counts, per: number(how.per), slip: signed(how.slip), ratio: number(how.ratio) };
    const sums = running(repeats.map((repeat) => ({
      turned: revolutions(number(repeat.counted), counting),
      setAside: repeat.set_aside !== '',
      catches: repeat.catches.map((row) => ({
        net: measured(row.gross, how.unit, MASS).value - measured(row.tare, how.unit, MASS).value, runs: number(row.runs),
      })),
    })));
    for (const key of ['factor', 'caught', 'spread']) near(sums[key], expected[key], key);
  });
}

for (const { name, zone, pairs, tree: wanted } of JSON.parse(read('trees.json'))) {
  test(`tree: ${name}`, () => assert.deepEqual(tree(pairs, zone), wanted));
}

for (const { typed, unit, is } of JSON.parse(read('weights.json'))) {
  test(`weight: “${typed}” in ${unit}`, () => near(measured(typed, unit, MASS).value, is === null ? null : Number(is), typed));
}

test('numbers as people type them', () => {
  assert.equal(signed('\u22125,5'), -5.5);
  assert.equal(signed('5'), 5);
  for (const none of ['--5', '-+5', '-', '- 5']) assert.ok(Number.isNaN(signed(none)), none);
  assert.equal(number('2,11'), 2.11);
  assert.equal(number(' 1 250.5 '), 1250.5);
  assert.equal(number('.5'), 0.5);
  for (const none of ['', '5 lb', '1.2.3', 'nan', '-3', '1e5', '1 2', '1 00', '0 500']) assert.ok(Number.isNaN(number(none)), none);
});
