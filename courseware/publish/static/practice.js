"use strict";
// Practice calls: the trainee makes checks one at a time and names the repair. What was done stays on the device.
// Needs nothing but the page it stands in: no network, no library, no server.
(() => {
  const byId = (id) => document.getElementById(id);
  const data = JSON.parse(byId("data").textContent);
  const words = JSON.parse(byId("words").textContent);
  const drawer = "courseware/practice"; // where the device keeps what was done
  const say = (key, values = {}) => words[key].replace(/\{(\w+)\}/g, (_, name) => values[name]);
  const rows = [...document.querySelectorAll(".check")];
  const titles = Object.fromEntries(rows.map((row) => [row.dataset.check, row.dataset.title]));
  const repairs = new Map([...byId("repair").options].filter((one) => one.value).map((one) => [one.value, one]));
  const print = fingerprint(byId("data").textContent); // what was done fits these calls and no others

  let keeps = true; // whether the device lets the page keep anything
  let state = newState();

  function newState() {
    return { print, at: 0, done: {} };
  }

  function newWork() {
    return { made: [], named: [] };
  }

  /** FNV-1a, 32 bit: tells other calls from these; no secret rests on it. */
  function fingerprint(text) {
    let hash = 0x811c9dc5;
    for (let place = 0; place < text.length; place += 1) hash = Math.imul(hash ^ text.charCodeAt(place), 0x01000193);
    return (hash >>> 0).toString(16);
  }

  // ---- keeping ----------------------------------------------------------------------------------------------------

  /** Return what the device kept, or null; "lost" tells that something was there but cannot be used. */
  function fetchKept() {
    let text = null;
    try {
      text = window.localStorage.getItem(drawer);
      window.localStorage.setItem(`${drawer}/try`, "1"); // some devices read but refuse to write
      window.localStorage.removeItem(`${drawer}/try`);
    } catch {
      keeps = false;
    }
    if (text === null) return { kept: null, lost: false };
    try {
      const kept = JSON.parse(text);
      return kept.print === print ? { kept: checked(kept), lost: false } : { kept: null, lost: false };
    } catch {
      return { kept: null, lost: true };
    }
  }

  /** Return what was kept less what does not fit these calls. */
  function checked(kept) {
    const fits = newState();
    if (data.calls[kept.at]) fits.at = kept.at;
    data.calls.forEach((call, place) => {
      const work = kept.done[place];
      if (!work) return;
      const made = work.made.filter((check, index) => check in call.readings && work.made.indexOf(check) === index);
      fits.done[place] = { made, named: work.named.filter((repair) => data.repairs[call.unit].includes(repair)) };
    });
    return fits;
  }

  function keep() {
    try {
      window.localStorage.setItem(drawer, JSON.stringify(state));
    } catch {
      keeps = false;
    }
    showKeeping();
  }

  function showKeeping(message = "") {
    const text = [message, say(keeps ? "kept" : "not-kept")].filter(Boolean).join(" ");
    if (byId("keeping").textContent !== text) byId("keeping").textContent = text;
  }

  // ---- the call ---------------------------------------------------------------------------------------------------

  const call = () => data.calls[state.at];
  const work = () => (state.done[state.at] ||= newWork());
  const isClosed = (place) => state.done[place] !== undefined && state.done[place].named.includes(data.calls[place].key);
  const minutesOf = (checks) => checks.reduce((total, check) => total + data.minutes[check], 0);
  const reading = (check) => data.texts[call().readings[check]];
  const title = (repair) => repairs.get(repair).textContent;

  /** Return the reasons against a repair on this call: the check of each, "" for what the customer says, and its sentence. */
  function reasonsAgainst(repair) {
    return call().against[data.repairs[call().unit].indexOf(repair)].map((place) => {
      const [check, read, named, expected] = data.reasons[place].map((part) => data.texts[part]);
      const parts = { reading: read.replace("{value}", () => reading(check)), repair: named, expected };
      const sentence = data.against[check ? 0 : 1].replace(/\{(\w+)\}/g, (_, name) => parts[name]);
      return { check, sentence };
    });
  }

  const isRead = ({ check }) => !check || work().made.includes(check);

  /** Return the other repairs that nothing read so far speaks against; what the customer says counts as read. */
  function leftOpen() {
    return data.repairs[call().unit].filter((one) => one !== call().key && !reasonsAgainst(one).some(isRead));
  }

  // ---- showing ----------------------------------------------------------------------------------------------------

  function element(name, text, kind = "") {
    const made = document.createElement(name);
    made.textContent = text;
    if (kind) made.className = kind;
    return made;
  }

  function list(lines) {
    const made = element("ul", "");
    made.append(...lines.map((line) => element("li", line)));
    return made;
  }

  function show() {
    byId("call").textContent = say("call", { call: state.at + 1, all: data.calls.length });
    byId("unit").textContent = data.units[call().unit];
    byId("says").textContent = data.texts[call().says];
    byId("spent").textContent = String(minutesOf(work().made));
    byId("made-none").hidden = work().made.length > 0;
    byId("made").replaceChildren(...work().made.map((check) => element("li", `${titles[check]}: ${reading(check)}`)));
    showChecks();
    showRepairs();
    showFeedback();
    showTally();
  }

  function showChecks() {
    for (const row of rows) {
      const { check } = row.dataset;
      const isMade = work().made.includes(check);
      row.hidden = !(check in call().readings);
      row.querySelector(".make").hidden = isMade || isClosed(state.at);
      row.querySelector(".reading").hidden = !isMade;
      row.querySelector(".reading").textContent = isMade ? say("made", { reading: reading(check) }) : "";
    }
    for (const card of document.querySelectorAll(".card")) card.hidden = !card.querySelector(".check:not([hidden])");
  }

  function showRepairs() {
    const fits = data.repairs[call().unit];
    for (const [repair, option] of repairs) option.hidden = option.disabled = !fits.includes(repair);
    byId("repair").disabled = isClosed(state.at);
    byId("name").hidden = isClosed(state.at);
  }

  function showFeedback() {
    const named = work().named.at(-1);
    byId("repair").value = named || "";
    if (!named) byId("feedback").replaceChildren();
    else byId("feedback").replaceChildren(...(named === call().key ? onRight() : onWrong(named)));
  }

  function onWrong(repair) {
    const reasons = reasonsAgainst(repair);
    const seen = reasons.filter(isRead);
    const unseen = reasons.filter((one) => !isRead(one));
    const parts = [element("p", say("wrong", { repair: title(repair) }), "verdict")];
    if (seen.length) parts.push(element("p", say("seen")), list(seen.map((one) => one.sentence)));
    else if (unseen.length) parts.push(element("p", say("unseen")), list([titles[unseen[0].check]]));
    else parts.push(element("p", say("weak")));
    return [...parts, element("p", say("go-on"))];
  }

  function onRight() {
    const open = leftOpen();
    const { key, path, settles } = call();
    const names = path.map((check) => titles[check]).join(say("path-joint"));
    const time = { spent: minutesOf(work().made), good: minutesOf(path), path: names };
    const parts = [element("p", say("right", { repair: title(key) }), "verdict")];
    if (open.length) parts.push(element("p", say("open")), list(open.map(title)));
    else parts.push(element("p", say("settled")));
    parts.push(element("p", say("settles")), list(settles.map((place) => data.texts[place])), element("p", say("time", time)));
    if (data.lessons[key]) parts.push(lessonLink(...data.lessons[key]));
    return parts;
  }

  function lessonLink(name, address) {
    const line = element("p", say("lesson"));
    const link = element("a", name);
    link.href = address;
    line.append(link);
    return line;
  }

  function showTally() {
    const closed = data.calls.map((_, place) => place).filter(isClosed);
    const first = closed.filter((place) => state.done[place].named.length === 1).length;
    byId("tally").textContent = say("tally", { closed: closed.length, all: data.calls.length, first });
  }

  function speak(text) {
    byId("said").textContent = text;
  }

  // ---- doing ------------------------------------------------------------------------------------------------------

  function makeCheck(row) {
    const { check } = row.dataset;
    work().made.push(check);
    show();
    keep();
    row.querySelector("summary").focus(); // the button that had the focus is gone
    speak(say("reading", { title: titles[check], reading: reading(check), minutes: minutesOf(work().made) }));
  }

  function nameRepair() {
    const repair = byId("repair").value;
    if (!repair) {
      byId("feedback").replaceChildren(element("p", say("choose-first"), "verdict"));
      byId("repair").focus();
      speak(say("choose-first"));
      return;
    }
    if (!work().named.includes(repair)) work().named.push(repair);
    else work().named.push(...work().named.splice(work().named.indexOf(repair), 1)); // told again, counted once
    show();
    keep();
    byId("feedback").focus();
  }

  function startOver() {
    state.done[state.at] = newWork();
    goTo(state.at);
    speak(say("over"));
  }

  /** Go to the next call that is not closed yet; past the last one begin again. */
  function nextCall() {
    const all = data.calls.length;
    const order = data.calls.map((_, step) => (state.at + 1 + step) % all);
    goTo(order.find((place) => !isClosed(place)) ?? order[0]);
  }

  function goTo(place) {
    state.at = place;
    for (const open of document.querySelectorAll(".check details[open]")) open.open = false;
    show();
    keep();
    byId("order-title").focus();
    speak(say("new-call", { call: byId("call").textContent, says: byId("says").textContent }));
  }

  // ---- start ------------------------------------------------------------------------------------------------------

  function listen() {
    for (const row of rows) row.querySelector(".make").addEventListener("click", () => makeCheck(row));
    byId("name").addEventListener("click", nameRepair);
    byId("next").addEventListener("click", nextCall);
    byId("again").addEventListener("click", startOver);
    window.addEventListener("storage", (event) => {
      if (event.key !== drawer || event.newValue === null) return;
      state = fetchKept().kept || state; // worked on in another window meanwhile
      show();
    });
  }

  const { kept, lost } = fetchKept();
  state = kept || state;
  listen();
  show();
  showKeeping(lost ? say("lost") : "");
  document.documentElement.classList.add("live"); // last: a script that failed on the way leaves the worked call
})();
