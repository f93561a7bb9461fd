"use strict";
// Every value reaches the page as text: nothing of a catalogue is ever read as HTML.
(() => {
  const PAGE = 100, PRINTED = 1000, GRAVITY = ["error", "warning", "notice"];
  const read = (id) => JSON.parse(document.getElementById(id).textContent);
  const element = (id) => document.getElementById(id);
  const names = read("names");
  const all = [];
  for (const [row, part, designation, status, findings] of read("rows")) {
    for (const [code, severity, member, given, expected, detail, basis] of findings) {
      all.push({
        row, part, designation, status: names.statuses[status], code: names.codes[code], severity: GRAVITY[severity],
        gravity: severity, member: names.members[member], given, expected, detail, basis: names.bases[basis],
        words: [part, designation, names.codes[code], given, expected, detail].join(" ").toLowerCase(),
      });
    }
  }
  const choices = ["severity", "code", "member", "status"];
  const body = element("list").tBodies[0];
  const titles = [...element("list").tHead.rows[0].cells].map((cell) => cell.textContent);
  const form = element("filters"), nav = document.querySelector("nav");
  let shown = all, page = 0;

  function offer(id) {
    const counts = new Map();
    for (const one of all) counts.set(one[id], (counts.get(one[id]) || 0) + 1);
    const listed = [...counts].sort((a, b) => (id === "severity" ? GRAVITY.indexOf(a[0]) - GRAVITY.indexOf(b[0]) : b[1] - a[1]));
    for (const [value, count] of listed) {
      if (value !== "") element(id).append(new Option(`${value} (${count})`, value));
    }
  }

  function cell(text, kind) {
    const made = document.createElement("td");
    made.textContent = text;
    if (kind) made.className = kind;
    return made;
  }

  function line(one) {
    const made = document.createElement("tr"), said = cell(one.detail, "typed");
    if (one.basis) {
      const basis = document.createElement("span");
      basis.className = "basis";
      basis.textContent = one.basis;
      said.append(basis);
    }
    made.append(
      cell(one.row, "number"), cell(one.part, "typed"), cell(one.designation, "typed"), cell(one.severity, one.severity),
      cell(one.code), cell(one.member), cell(one.given, "typed"), cell(one.expected, "typed"), said,
    );
    [...made.cells].forEach((each, at) => { each.dataset.name = titles[at]; });
    return made;
  }

  function draw(from, to) {
    body.replaceChildren(...shown.slice(from, to).map(line));
    const range = shown.length ? `${from + 1} to ${Math.min(to, shown.length)} of ${shown.length}` : "0";
    const whole = shown.length < all.length ? `, ${all.length} in all` : "";
    element("count").textContent = all.length ? `${range} findings${whole}` : "No findings.";
  }

  function turn(to) {
    const last = Math.max(0, Math.ceil(shown.length / PAGE) - 1);
    page = Math.min(Math.max(0, to), last);
    draw(page * PAGE, (page + 1) * PAGE);
    element("page").textContent = `page ${page + 1} of ${last + 1}`;
    element("first").disabled = element("previous").disabled = page === 0;
    element("next").disabled = element("last").disabled = page === last;
  }

  function filter() {
    const words = element("words").value.toLowerCase().split(/\s+/).filter(Boolean);
    const wanted = choices.map((id) => [id, element(id).value]).filter(([, value]) => value);
    shown = all.filter((one) => wanted.every(([id, value]) => one[id] === value) && words.every((word) => one.words.includes(word)));
    if (element("order").value) shown = shown.slice().sort((a, b) => a.gravity - b.gravity || a.row - b.row);
    turn(0);
  }

  choices.forEach(offer);
  let waiting = 0;
  form.addEventListener("input", () => { clearTimeout(waiting); waiting = setTimeout(filter, 80); });
  form.addEventListener("submit", (event) => { event.preventDefault(); filter(); });
  form.addEventListener("reset", () => setTimeout(filter));
  element("codes").addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (!button) return;
    form.reset();
    element("code").value = button.textContent;
    filter();
    element("code").focus();
  });
  element("first").addEventListener("click", () => turn(0));
  element("previous").addEventListener("click", () => turn(page - 1));
  element("next").addEventListener("click", () => turn(page + 1));
  element("last").addEventListener("click", () => turn(Infinity));
  window.addEventListener("beforeprint", () => draw(0, PRINTED));
  window.addEventListener("afterprint", () => turn(page));
  form.hidden = nav.hidden = element("list").hidden = all.length === 0;
  turn(0);
})();
