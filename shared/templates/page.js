/* Decisions on a page without a server: kept in this browser, exported to and imported from a JSON file. */
"use strict";
(function () {
  const panel = document.getElementById("decisions");
  if (!panel) return;
  const recording = panel.dataset.recording;
  const place = "miner-decisions:" + recording + ":" + panel.dataset.sha;
  const findings = Array.from(document.querySelectorAll("article.finding"));
  const who = panel.querySelector("#who");
  const said = panel.querySelector("#said");
  let decisions = new Map();

  const restore = () => {
    try {
      const kept = JSON.parse(localStorage.getItem(place) || "{}");
      who.value = kept.who || "";
      decisions = new Map((kept.decisions || []).map((one) => [one.item, one]));
    } catch { decisions = new Map(); }
  };
  const keep = () => {
    try { localStorage.setItem(place, JSON.stringify({ who: who.value, decisions: Array.from(decisions.values()) })); } catch { /* the file is the safe place */ }
  };
  const say = (text) => { said.textContent = text; };
  const element = (name, values, text) => {
    const made = Object.assign(document.createElement(name), values);
    if (text) made.textContent = text;
    return made;
  };

  function decide(article, state, reason) {
    const item = "finding:" + article.id;
    if (state === "open") decisions.delete(item);
    else decisions.set(item, {
      item, state, changes: {}, reason, who: who.value.trim(), at: new Date().toISOString(),
      basis: { words: article.dataset.words, start: Number(article.dataset.start), end: Number(article.dataset.end), id: article.id },
    });
    keep();
    show();
  }

  function controls(article, number) {
    const form = element("form", { className: "decide" });
    const state = element("p", { className: "quiet" });
    const accept = element("button", { type: "button" }, "Accept");
    const label = element("label", { htmlFor: "reason-" + number }, "Reason to dismiss ");
    const reason = element("input", { id: "reason-" + number, maxLength: 1000 });
    const dismiss = element("button", { type: "submit" }, "Dismiss");
    const back = element("button", { type: "button" }, "Open again");
    accept.addEventListener("click", () => { decide(article, "accepted", ""); back.focus(); });
    back.addEventListener("click", () => { decide(article, "open", ""); accept.focus(); });
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      if (!reason.value.trim()) { say("A finding is dismissed with a reason."); reason.focus(); return; }
      decide(article, "dismissed", reason.value.trim());
      back.focus();
    });
    form.append(state, accept, " ", label, reason, " ", dismiss, back);
    article.append(form);
    article.shown = (one) => {
      const words = { accepted: "Accepted", dismissed: "Dismissed", corrected: "Corrected" };
      state.textContent = one ? words[one.state] + (one.who ? " by " + one.who : "") + (one.reason ? ": " + one.reason : "") : "";
      for (const part of [accept, label, reason, dismiss]) part.hidden = Boolean(one);
      back.hidden = !one;
    };
  }

  function show() {
    let done = 0;
    for (const article of findings) {
      const one = decisions.get("finding:" + article.id);
      done += one ? 1 : 0;
      article.shown(one);
    }
    const others = Array.from(decisions.keys()).filter((item) => !item.startsWith("finding:")).length;
    panel.querySelector("#done").textContent = done + " of " + findings.length + " findings decided"
      + (others ? ", and " + others + " corrections from elsewhere" : "") + ".";
  }

  function exported() {
    const text = JSON.stringify({ schema: "decisions/1", recording, decisions: Array.from(decisions.values()) }, null, 1) + "\n";
    const link = element("a", { href: URL.createObjectURL(new Blob([text], { type: "application/json" })), download: "decisions.json" });
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
    say("Exported " + decisions.size + " decisions.");
  }

  async function imported(file) {
    try {
      const document_ = JSON.parse(await file.text());
      if (document_.schema !== "decisions/1" || document_.recording !== recording) {
        say("This file holds no decisions on this recording.");
        return;
      }
      const fields = ["item", "state", "reason", "who", "at"];
      const good = document_.decisions.filter((one) => fields.every((name) => typeof one[name] === "string")
        && ["accepted", "corrected", "dismissed"].includes(one.state));
      const fresh = good.filter((one) => !decisions.has(one.item));
      for (const one of fresh) decisions.set(one.item, one);
      keep();
      show();
      say("Imported " + fresh.length + " decisions; " + (good.length - fresh.length) + " were decided here already.");
    } catch { say("This file is no JSON with decisions."); }
  }

  findings.forEach(controls);
  restore();
  who.addEventListener("change", keep);
  panel.querySelector("#export").addEventListener("click", exported);
  panel.querySelector("#import").addEventListener("change", (event) => {
    if (event.target.files.length) imported(event.target.files[0]);
    event.target.value = "";
  });
  panel.hidden = false;
  show();
})();
