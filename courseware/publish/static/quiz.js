"use strict";
// Keeps the answers to one form on the trainee's device as they are given, and makes the receipt.
// Needs nothing but the page it stands in: no network, no library, no server.
(() => {
  const byId = (id) => document.getElementById(id);
  const form = JSON.parse(byId("form").textContent);
  const words = JSON.parse(byId("words").textContent);
  const drawer = `courseware/answers/${form.id}`; // where the device keeps this form's answers
  const say = (key, values = {}) => words[key].replace(/\{(\w+)\}/g, (_, name) => values[name]);
  const now = () => new Date().toISOString().replace(/\.\d+Z$/, "Z");

  const questions = form.items.map((item) => {
    const section = byId(`question-${item.number}`);
    const tags = item.options.map((option) => option.tag);
    return { item, section, tags, way: section.dataset.way, number: String(item.number) };
  });

  let keeps = true; // whether the device lets the page keep anything
  let state = newState();

  function newState() {
    return { form: form.id, started: now(), finished: "", given: {}, typed: {} };
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
      return { kept: checked(JSON.parse(text)), lost: false };
    } catch {
      return { kept: null, lost: true };
    }
  }

  /** Return kept answers less those that do not fit this form; throw if there is nothing to use. */
  function checked(kept) {
    if (kept.form !== form.id || typeof kept.started !== "string" || typeof kept.finished !== "string") throw new Error("other");
    const fits = newState();
    fits.started = kept.started;
    fits.finished = kept.finished;
    for (const { number, tags, way } of questions) {
      const given = kept.given[number];
      const known = Array.isArray(given) && given.every((tag) => tags.includes(tag)) && new Set(given).size === given.length;
      if (known && fitsWay(way, given.length, tags.length)) fits.given[number] = given;
      if (way === "write" && typeof kept.typed[number] === "string") fits.typed[number] = kept.typed[number];
    }
    return fits;
  }

  const fitsWay = (way, count, all) => (way === "several" ? count > 0 : count === (way === "arrange" ? all : 1));

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

  // ---- answers ----------------------------------------------------------------------------------------------------

  /** Read a typed number: {value} as plain decimal text, {fault} in words, or neither where nothing was typed. */
  function readNumber(typed, unit) {
    const text = typed.trim().replace("\u2212", "-");
    if (!text) return {};
    const parts = /^([-+]?)\s*([0-9.,]+)\s*(.*)$/.exec(text);
    if (!parts) return { fault: say("no-number") };
    const [, sign, digits, tail] = parts;
    if (tail && tail.toLowerCase() !== unit.toLowerCase()) {
      if (/^[0-9.,]/.test(tail)) return { fault: say("no-number") };
      return { fault: unit ? say("other-unit", { unit }) : say("other-none") };
    }
    if (/^[1-9]\d{0,2},\d{3}$/.test(digits)) {
      return { fault: say("two-ways", { thousands: digits.replace(",", ""), decimal: digits.replace(",", ".") }) };
    }
    const grouped = /^[1-9]\d{0,2}(,\d{3})+(\.\d*)?$/.test(digits);
    const plain = grouped ? digits.replace(/,/g, "") : digits.replace(",", ".");
    if (!/^(\d+\.?\d*|\.\d+)$/.test(plain)) return { fault: say("no-number") };
    const value = plain.replace(/^\./, "0.").replace(/\.$/, "");
    return { value: (sign === "-" ? "-" : "") + value };
  }

  /** Return the answer to a question as the response holds it: a list of tags, or of one number, or empty. */
  function answerTo(question) {
    if (question.way !== "write") return state.given[question.number] || [];
    const { value } = readNumber(state.typed[question.number] || "", question.item.unit);
    return value === undefined ? [] : [value];
  }

  const faultOf = ({ way, number, item }) => (way === "write" && readNumber(state.typed[number] || "", item.unit).fault) || "";
  const isOpen = (question) => answerTo(question).length === 0;

  /** CRC-32 of ISO 3309 and ITU-T V.42, as eight hexadecimal digits. */
  function crc32(text) {
    let crc = 0xffffffff;
    for (const byte of new TextEncoder().encode(text)) {
      crc ^= byte;
      for (let bit = 0; bit < 8; bit += 1) crc = (crc >>> 1) ^ (0xedb88320 & -(crc & 1));
    }
    return (~crc >>> 0).toString(16).padStart(8, "0");
  }

  function responseText() {
    const answers = Object.fromEntries(questions.map((question) => [question.number, answerTo(question)]));
    const lines = questions.map((question) => `${question.number}=${answerTo(question).join(" ")}`);
    const check = crc32([form.id, ...lines].join("\n"));
    const response = { answers, check, finished: state.finished, form: form.id, format: "courseware/response/1", started: state.started };
    return `${JSON.stringify(response, null, 1)}\n`;
  }

  function answerCode() {
    const fields = questions.flatMap((question) => {
      const answer = answerTo(question);
      if (answer.length === 0) return [`${question.number}=-`];
      if (question.way !== "write") return answer;
      const sum = [...answer[0]].filter((sign) => /\d/.test(sign)).reduce((total, digit) => total + Number(digit), 0);
      return [`${question.number}=${answer[0]}/${sum}`];
    });
    return `${form.id} ${fields.join(" ")} /${fields.length}`;
  }

  // ---- showing ----------------------------------------------------------------------------------------------------

  function show() {
    for (const question of questions) showQuestion(question);
    showProgress();
    if (state.finished) showReceipt();
  }

  function showQuestion(question) {
    const { section, way, number } = question;
    if (way === "choose" || way === "several") {
      const chosen = answerTo(question);
      for (const input of section.querySelectorAll("input")) input.checked = chosen.includes(input.value);
    } else if (way === "write") {
      const input = section.querySelector("input");
      if (input.value !== (state.typed[number] || "")) input.value = state.typed[number] || "";
    } else {
      showOrder(question);
    }
    section.querySelector(".state").textContent = say(isOpen(question) ? "open" : "answered");
    for (const button of section.querySelectorAll(".clear")) button.hidden = isOpen(question);
    for (const button of section.querySelectorAll(".take")) button.hidden = !isOpen(question);
    for (const control of section.querySelectorAll("input, select, button")) control.disabled = Boolean(state.finished);
  }

  function showOrder({ section, tags, number }) {
    const list = section.querySelector(".options");
    const steps = new Map([...list.children].map((step) => [step.dataset.tag, step]));
    const order = (state.given[number] || tags).map((tag) => steps.get(tag));
    if (order.some((step, index) => list.children[index] !== step)) {
      const focused = document.activeElement;
      list.append(...order);
      if (list.contains(focused)) focused.focus(); // a moved element loses the focus
    }
    order.forEach((step, index) => { step.querySelector("select").selectedIndex = index; });
  }

  function showFault(question) {
    const fault = faultOf(question);
    const input = question.section.querySelector("input");
    byId(`fault-${question.number}`).textContent = fault;
    if (fault) input.setAttribute("aria-invalid", "true"); else input.removeAttribute("aria-invalid");
  }

  function showProgress() {
    const done = questions.filter((question) => !isOpen(question)).length;
    byId("progress").textContent = say("progress", { done, all: questions.length });
    byId("open-questions").replaceChildren();
    byId("hand-in-button").textContent = say("hand-in");
  }

  function speak(text) {
    byId("said").textContent = text;
  }

  // ---- changing ---------------------------------------------------------------------------------------------------

  function changed(question) {
    showQuestion(question);
    showProgress();
    keep();
  }

  function moveStep(question, tag, place) {
    const order = (state.given[question.number] || question.tags).filter((other) => other !== tag);
    const index = Math.max(0, Math.min(order.length, place));
    order.splice(index, 0, tag);
    state.given[question.number] = order;
    changed(question);
    speak(say("moved", { tag, place: index + 1, all: order.length }));
  }

  function onChange(question, target) {
    if (question.way === "choose") {
      state.given[question.number] = [target.value];
      changed(question);
    } else if (question.way === "several") {
      const marked = [...question.section.querySelectorAll("input:checked")].map((input) => input.value);
      const chosen = question.tags.filter((tag) => marked.includes(tag)); // in the order of the form
      if (chosen.length) state.given[question.number] = chosen; else delete state.given[question.number];
      changed(question);
    } else if (question.way === "write") {
      showFault(question);
    } else {
      moveStep(question, target.closest(".step").dataset.tag, target.selectedIndex);
    }
  }

  function onInput(question, target) {
    if (question.way !== "write") return;
    state.typed[question.number] = target.value;
    if (!faultOf(question)) showFault(question); // a fault goes at once, and comes only when the field is left
    changed(question);
  }

  function onClick(question, button) {
    const { number } = question;
    if (button.matches(".up, .down")) {
      const { tag } = button.closest(".step").dataset;
      const place = (state.given[number] || question.tags).indexOf(tag);
      moveStep(question, tag, place + (button.matches(".up") ? -1 : 1));
    } else if (button.matches(".take")) {
      state.given[number] = state.given[number] || [...question.tags];
      changed(question);
      question.section.querySelector(".clear").focus(); // the button that had the focus is gone
      speak(say("order-taken", { number }));
    } else if (button.matches(".clear")) {
      delete state.given[number];
      changed(question);
      question.section.querySelector("input, select").focus(); // the button that had the focus is gone
      speak(say("cleared", { number }));
    }
  }

  // ---- handing in -------------------------------------------------------------------------------------------------

  /** List questions that stand in the way, each a link to it, and bring the reader there. */
  function listQuestions(message, listed) {
    const list = document.createElement("ul");
    for (const { number } of listed) {
      const link = document.createElement("a");
      link.href = `#question-${number}`;
      link.textContent = byId(`title-${number}`).textContent;
      const entry = document.createElement("li");
      entry.append(link);
      list.append(entry);
    }
    const text = document.createElement("p");
    text.textContent = message;
    byId("open-questions").replaceChildren(text, list);
    byId("open-questions").focus();
  }

  function handIn() {
    const { kept } = fetchKept();
    if (kept && kept.finished) state = kept; // handed in from another window meanwhile: that one counts
    if (!state.finished) {
      const wrong = questions.filter((question) => faultOf(question));
      const open = questions.filter(isOpen);
      const asked = byId("hand-in-button").textContent === say("hand-in-anyway");
      if (wrong.length) {
        wrong.forEach(showFault);
        listQuestions(say("still-wrong"), wrong);
        return;
      }
      if (open.length && !asked) {
        byId("hand-in-button").textContent = say("hand-in-anyway");
        listQuestions(say("still-open"), open);
        return;
      }
      state.finished = now();
      keep();
    }
    show();
    byId("receipt-title").focus();
  }

  function showReceipt() {
    const finished = new Date(state.finished);
    const two = (number) => String(number).padStart(2, "0");
    const day = `${finished.getFullYear()}-${two(finished.getMonth() + 1)}-${two(finished.getDate())}`;
    byId("receipt-finished").textContent = `${day} ${two(finished.getHours())}:${two(finished.getMinutes())}`;
    const done = questions.filter((question) => !isOpen(question)).length;
    byId("receipt-count").textContent = say("receipt-count", { done, all: questions.length });
    byId("file-text").value = responseText();
    byId("code-text").value = answerCode();
    byId("save").download = `answers-${form.id}.json`;
    byId("save").href = URL.createObjectURL(new Blob([responseText()], { type: "application/json" }));
    byId("receipt-again").textContent = say(keeps ? "again" : "again-not-kept");
    document.documentElement.classList.add("handed-in"); // what changes answers goes
    byId("hand-in").hidden = true;
    byId("receipt").hidden = false;
  }

  async function copy(button) {
    const field = byId(button.dataset.copies);
    field.focus();
    field.select();
    let done = false;
    try {
      await navigator.clipboard.writeText(field.value);
      done = true;
    } catch {
      done = document.execCommand("copy"); // older devices, and pages opened from a file
    }
    if (done) button.focus();
    speak(say(done ? "copied" : "not-copied"));
  }

  /** Take over what another window has kept meanwhile. */
  function follow() {
    const { kept } = fetchKept();
    if (!keeps || !kept || JSON.stringify(kept) === JSON.stringify(state)) return;
    state = kept;
    show();
    speak(say("other-window"));
  }

  // ---- start ------------------------------------------------------------------------------------------------------

  function listen() {
    for (const question of questions) {
      question.section.addEventListener("change", (event) => onChange(question, event.target));
      question.section.addEventListener("input", (event) => onInput(question, event.target));
      question.section.addEventListener("click", (event) => {
        const button = event.target.closest("button");
        if (button) onClick(question, button);
      });
    }
    byId("hand-in-button").addEventListener("click", handIn);
    byId("save").addEventListener("click", (event) => speak(say("saved", { file: event.target.download })));
    for (const button of document.querySelectorAll(".copy")) button.addEventListener("click", () => copy(button));
    window.addEventListener("storage", (event) => {
      if (event.key === drawer && event.newValue !== null) follow();
    });
    window.addEventListener("focus", follow); // a window in the background may not be told
    window.addEventListener("beforeunload", (event) => {
      if (!keeps && questions.some((question) => !isOpen(question))) event.preventDefault();
    });
  }

  const { kept, lost } = fetchKept();
  state = kept || state;
  listen();
  show();
  if (!kept) keep();
  for (const question of questions) if (question.way === "write") showFault(question);
  showKeeping(lost ? say("lost") : "");
  document.documentElement.classList.add("live"); // last: a script that failed on the way leaves the paper version
})();
