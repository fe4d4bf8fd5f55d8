// Fields sown with a made-up machine, written down by another people's library of the standard (npm `isoxml`): the task data
// and, beside it, what must be found in it. Nothing of Sowmark is used here.
import { ISOXMLManager, TAGS } from "isoxml";

// A small generator of pseudo-random numbers, so that a seed names a file for good.
export function chance(seed) {
  let state = seed >>> 0;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  return { upTo: (most) => Math.floor(next() * most), pick: (list) => list[Math.floor(next() * list.length)] };
}

const DDI = { area: "0074", kilograms: "0051", grams: "0160", revolutions: "0183", time: "0077", lifetime: "010F", rate: "0006", content: "004B" };
const TASK_TOTAL = { DeviceProcessDataProperty: 3, DeviceProcessDataTriggerMethods: 31 };
const LIFETIME = { DeviceProcessDataProperty: 1, DeviceProcessDataTriggerMethods: 31 };

export async function made(seed, version) {
  const { upTo, pick } = chance(seed);
  const manager = new ISOXMLManager({ version, fmisTitle: "a test" });
  const entity = (tag, attributes) => manager.createEntityFromAttributes(tag, attributes);
  const entered = (tag, attributes) => {
    const it = entity(tag, attributes);
    return { it, ref: manager.registerEntity(it) };
  };
  // Names without signs of XML: this release of the library escapes those twice.
  const customer = entered(TAGS.Customer, { CustomerLastName: pick(["Núñez y Söhne", "Beispiel", "Ødegård"]) });
  const field = entered(TAGS.Partfield, { PartfieldDesignator: `Field ${seed}, north`, PartfieldArea: 10_000 + upTo(500_000), CustomerIdRef: customer.ref });
  const tanks = 1 + upTo(3);
  const products = Array.from({ length: tanks }, (_, tank) => entered(TAGS.Product, { ProductDesignator: `Lot ${seed}-${tank}`, QuantityDDI: DDI.content }));
  const device = machine(entity, entered, tanks, seed);
  const tasks = [];
  const expected = [];
  for (let number = 1 + upTo(4); number > 0; number -= 1) {
    const sown = sowing({ upTo, pick }, entity, { device, products, day: 1 + tasks.length });
    const task = entered(TAGS.Task, { TaskDesignator: `Task ${number}`, TaskStatus: "4", PartfieldIdRef: field.ref, CustomerIdRef: customer.ref, DefaultTreatmentZoneCode: 1, ...sown.attributes });
    tasks.push(task.it);
    expected.push({ task: task.ref.xmlId, tanks: sown.expected });
  }
  manager.rootElement.attributes = { ...manager.rootElement.attributes, DataTransferOrigin: "2", Customer: [customer.it], Partfield: [field.it], Product: products.map(({ it }) => it), Device: [device.it], Task: tasks };
  return { zip: await manager.saveISOXML(), expected, field: field.it.attributes.PartfieldDesignator, customer: customer.it.attributes.CustomerLastName };
}

// The frame (object 1) counts area, time and a lifetime; each tank its own masses and revolutions.
function machine(entity, entered, tanks, seed) {
  const data = [];
  const value = (ddi, kind) => {
    const object = 100 + data.length;
    data.push(entity(TAGS.DeviceProcessData, { DeviceProcessDataObjectId: object, DeviceProcessDataDDI: ddi, ...kind }));
    return entity(TAGS.DeviceObjectReference, { DeviceObjectId: object });
  };
  const frame = entered(TAGS.DeviceElement, { DeviceElementObjectId: 1, DeviceElementType: "1", DeviceElementNumber: 0, ParentObjectId: 0, DeviceObjectReference: [value(DDI.area, TASK_TOTAL), value(DDI.time, TASK_TOTAL), value(DDI.lifetime, LIFETIME)] });
  const bins = Array.from({ length: tanks }, (_, tank) => entered(TAGS.DeviceElement, { DeviceElementObjectId: 2 + tank, DeviceElementType: "3", DeviceElementNumber: 1 + tank, ParentObjectId: 1, DeviceElementDesignator: `Tank ${tank + 1}`, DeviceObjectReference: [DDI.kilograms, DDI.grams, DDI.revolutions].map((ddi) => value(ddi, TASK_TOTAL)) }));
  const device = entered(TAGS.Device, { DeviceDesignator: "Seeder", ClientNAME: "A000840000200001", DeviceSerialNumber: `S-${seed}`, DeviceStructureLabel: "31", DeviceLocalizationLabel: "FF", DeviceElement: [frame, ...bins].map(({ it }) => it), DeviceProcessData: data });
  return { ...device, frame, bins };
}

// Sessions whose counters run on from one to the next, and what stood on them at the end.
function sowing({ upTo, pick }, entity, { device, products, day }) {
  const logged = (ddi, value, element) => entity(TAGS.DataLogValue, { ProcessDataDDI: ddi, ProcessDataValue: value, DeviceElementIdRef: element.ref });
  const sessions = 1 + upTo(5);
  const tanks = device.bins.map(() => ({ target: 1000 + upTo(30_000), grams: 0, revolutions: 0, filled: 0 }));
  let area = 0;
  const times = Array.from({ length: sessions }, (_, session) => {
    area += 1 + upTo(60_000);
    const values = [logged(DDI.area, area, device.frame), logged(DDI.lifetime, 5_000_000 + area, device.frame)];
    tanks.forEach((tank, at) => {
      tank.grams += 1000 + upTo(300_000);
      tank.revolutions += upTo(50_000_000);
      values.push(logged(DDI.grams, tank.grams, device.bins[at]), logged(DDI.kilograms, Math.floor(tank.grams / 1000), device.bins[at]), logged(DDI.revolutions, tank.revolutions, device.bins[at]));
    });
    const hour = (at) => new Date(Date.UTC(2025, 9, day, at));
    return entity(TAGS.Time, { Start: hour(6 + 2 * session), Stop: hour(7 + 2 * session), Duration: 3600, Type: "4", DataLogValue: values });
  });
  // A time element that nobody worked in, and the order of the file turned over.
  times.push(entity(TAGS.Time, { Start: new Date(Date.UTC(2025, 9, day, 5)), Stop: new Date(Date.UTC(2025, 9, day, 20)), Duration: 54_000, Type: "1" }));
  if (pick([true, false])) times.reverse();
  const allocations = tanks.map((tank, at) => {
    tank.filled = tank.grams + upTo(50_000);
    return entity(TAGS.ProductAllocation, { ProductIdRef: products[at].ref, QuantityDDI: DDI.content, QuantityValue: tank.filled, TransferMode: "1", DeviceElementIdRef: device.bins[at].ref });
  });
  const zone = entity(TAGS.TreatmentZone, { TreatmentZoneCode: 1, ProcessDataVariable: tanks.map((tank, at) => entity(TAGS.ProcessDataVariable, { ProcessDataDDI: DDI.rate, ProcessDataValue: tank.target, ProductIdRef: products[at].ref, DeviceElementIdRef: device.bins[at].ref })) });
  const expected = tanks.map((tank, at) => ({ element: device.bins[at].ref.xmlId, product: products[at].ref.xmlId, area_m2: area, mass_g: tank.grams, revolutions_e4: tank.revolutions, target: tank.target, filled_g: tank.filled, sessions, seconds: 3600 * sessions }));
  return { attributes: { Time: times, ProductAllocation: allocations, TreatmentZone: [zone] }, expected };
}
