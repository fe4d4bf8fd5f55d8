// Running sums on the catch sheet: net masses, the factor so far, what was caught. Plain sums only; the judgement is the
// server's. A weight typed with a unit of its own is left to it as well.
const form = document.getElementById("catch");
const unit = form.elements._mass_unit.value;

const number = (input) => {
  const text = input ? input.value.trim().replace(",", ".") : "";
  return /^[0-9]*\.?[0-9]+$/.test(text) || /^[0-9]+\.$/.test(text) ? Number(text) : NaN;
};

const shown = (value, digits) => (Number.isFinite(value) ? value.toLocaleString("en", { maximumSignificantDigits: digits, useGrouping: false }).replace(".", form.dataset.decimal) : "–");

const named = (within, ending) => [...within.querySelectorAll("input")].find((input) => input.name.endsWith(ending));

const revolutions = (repeat) => {
  const counted = number(named(repeat, "/revolutions"));
  const ratio = Number(form.dataset.ratio);
  const per = number(form.elements._per);
  switch (form.elements._counted.value) {
    case "turns": return counted * ratio;
    case "pulses": return counted / per;
    case "distance": return (counted / per) * ratio;
    default: return counted;
  }
};

const weighed = (row) => {
  const net = number(named(row, "/gross/value")) - number(named(row, "/tare/value"));
  row.querySelector("output").textContent = net > 0 ? `${shown(net, 4)} ${unit}` : "–";
  return { net, runs: number(named(row, "/runs")) };
};

const running = document.getElementById("running").content.firstElementChild.cloneNode(true);
document.getElementById("running").replaceWith(running);

const add = () => {
  let caught = 0, turned = 0;
  const factors = [];
  for (const repeat of form.querySelectorAll(".repeat")) {
    const rows = [...repeat.querySelectorAll(".catch")].map(weighed).filter((row) => row.net > 0 && row.runs > 0);
    if (rows.length === 0 || named(repeat, "/set_aside").value.trim() !== "") continue;
    const net = rows.reduce((sum, row) => sum + row.net, 0);
    const runs = rows.reduce((sum, row) => sum + row.runs, 0);
    caught += net;
    turned += runs * revolutions(repeat);
    factors.push(net / (runs * revolutions(repeat)));
  }
  const per = unit === "g" || unit === "oz" ? 1 : 100;
  const mean = factors.reduce((sum, factor) => sum + factor, 0) / factors.length;
  const spread = factors.length > 1 ? (100 * (Math.max(...factors) - Math.min(...factors))) / mean : NaN;
  running.querySelector("[data-factor]").textContent = turned > 0 ? shown((per * caught) / turned, 4) : "–";
  running.querySelector("[data-factor-unit]").textContent = per === 1 ? `${unit}/rev` : `${unit}/100rev`;
  running.querySelector("[data-spread]").textContent = Number.isFinite(spread) ? `${shown(spread, 2)} %` : "–";
  running.querySelector("[data-caught]").textContent = caught > 0 ? shown(caught, 4) : "–";
};

form.addEventListener("input", add);
add();
