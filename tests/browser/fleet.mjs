// A small made-up fleet for the tests of a phone: two drills, a crew of two who log from the field, and somebody in the office.
import assert from 'node:assert/strict';

export const password = 'a few good words for a yard';
const q = (value, unit) => ({ value, unit });

/** Enters the fleet; answers its ids and a way to ask the server as the office does. */
export async function enterFleet(server) {
  const organization = server.cli('organization', 'add', 'Birkenfeld', '--time-zone', 'Europe/Vienna');
  const member = (email, role, name) =>
    server.cliWith(password, 'member', 'add', email, '--organization', organization, '--role', role, '--name', name, '--password-stdin');
  member('ana@example.org', 'office', 'Ana Feld');
  member('ben@example.org', 'crew', 'Ben Acker');
  member('cora@example.org', 'crew', 'Cora Rain');
  const token = server.cli('token', 'add', 'ana@example.org', '--organization', organization, '--label', 'test').split(/\s/).pop();
  const api = async (path, body, method = body ? 'POST' : 'GET') => {
    const answer = await fetch(`${server.url}/api/v1${path}`, {
      method, headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' }, body: body && JSON.stringify(body),
    });
    const text = await answer.text();
    assert.ok(answer.ok, `${path}: ${answer.status} ${text}`);
    return JSON.parse(text);
  };
  const roller = await api('/rollers', { label: 'fine fluted', kind: 'fluted', displacement_per_rev: q('38', 'cm3') });
  const coarse = await api('/rollers', { label: 'coarse fluted', kind: 'fluted' });
  const scale = await api('/scales', { name: 'hanging scale', readability: q('1', 'g'), capacity: q('15', 'kg') });
  await api(`/scales/${scale.id}/checks`, { occurred_at: '2026-11-20T08:00:00+01:00', reference: q('5', 'kg'), reading: q('5', 'kg') });
  const lot = await api('/lots', { lot_number: 'WW-114', crop: 'wheat' });
  await api(`/lots/${lot.id}/tests`, { occurred_at: '2026-11-20T08:00:00+01:00', thousand_seed_weight: q('45.2', 'g'), bulk_density: q('78', 'kg/hL') });
  const seeders = [];
  for (const name of ['Drill at the yard', 'Drill on the hill']) {
    const seeder = await api('/seeders', {
      name, serial_number: name.length.toString(), kind: 'box_drill', commissioned_on: '2024-03-02', working_width: q('6', 'm'), row_spacing: q('12.5', 'cm'),
      metering_units: [{ label: 'box', runs: 8, drive: 'electric', roller_speed_rpm: { min: 10, max: 120 } }],
    });
    const unit = seeder.metering_units[0].id;
    await api(`/metering-units/${unit}/setups`, { occurred_at: '2026-11-20T08:00:00+01:00', roller_id: roller.id, drive_ratio: '1', gate: null, runs: 8 });
    await api(`/metering-units/${unit}/fills`, { occurred_at: '2026-11-20T08:30:00+01:00', lot_id: lot.id, mass: q('600', 'kg') });
    seeders.push({ id: seeder.id, unit, name });
  }
  const people = (await api('/members')).items;
  const crew = people.filter((person) => person.role === 'crew').map((person) => person.id);
  await api('/crews', { name: 'north', members: crew, seeders: seeders.map((seeder) => seeder.id) });
  return { api, seeders, roller, coarse, scale, lot };
}

/** Signs in on a page. */
export async function signIn(page, server, email, back = '/') {
  await page.goto(`${server.url}/sign-in?back=${encodeURIComponent(back)}`);
  await page.fill('[name=email]', email);
  await page.fill('[name=password]', password);
  await page.press('[name=password]', 'Enter');
  await page.waitForURL((url) => !url.pathname.startsWith('/sign-in'));
}
