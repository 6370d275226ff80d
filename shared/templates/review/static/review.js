/* Shortcuts and the player. Everything here is a shorter way to something the page does without it. */
"use strict";
(function () {
  const typing = (target) => target.closest("input:not([type=checkbox]):not([type=radio]), textarea, select") !== null;
  const openFindings = () => Array.from(document.querySelectorAll(".finding[data-open]"));
  const current = () => document.activeElement && document.activeElement.closest(".finding");

  function focusHash() {
    const target = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
    if (target && target.hasAttribute("tabindex")) target.focus();
  }

  function go(step) {
    const all = openFindings();
    if (!all.length) return;
    const here = document.activeElement || document.body;
    const after = all.findIndex((one) => here.compareDocumentPosition(one) & Node.DOCUMENT_POSITION_FOLLOWING && !here.contains(one));
    const inside = all.findIndex((one) => one === here || one.contains(here));
    let place;
    if (here === document.body) place = step > 0 ? 0 : all.length - 1;
    else if (inside >= 0) place = inside + step;
    else if (step > 0) place = after >= 0 ? after : 0;
    else place = (after >= 0 ? after : all.length) - 1;
    const chosen = all[(place + all.length) % all.length];
    chosen.focus();
    chosen.scrollIntoView({ block: "center" });
  }

  /* The player: from a start to an end, again and again while the box is ticked. */
  const player = document.getElementById("player");
  const loop = document.getElementById("loop");
  const passage = document.getElementById("passage");
  let from = null, until = null;
  function play(link) {
    from = Math.max(0, Number(link.dataset.start) - 0.3);
    until = Math.max(Number(link.dataset.end), from + 1.5) + 0.3;
    player.currentTime = from;
    const started = player.play();
    if (started) started.catch(() => {});
    passage.textContent = "From " + link.textContent.replace("At ", "").trim();
  }
  if (player) {
    player.addEventListener("timeupdate", () => {
      if (until === null || player.currentTime < until) return;
      if (loop.checked) player.currentTime = from;
      else { player.pause(); until = null; }
    });
    document.addEventListener("click", (event) => {
      const link = event.target.closest("a.moment");
      if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      play(link);
    });
  }

  let side = 0, heard = null;
  function hear(finding) {
    const links = finding.querySelectorAll(".sides a.moment");
    if (!links.length) return;
    side = finding === heard ? (side + 1) % links.length : 0;
    heard = finding;
    links[side].click();
  }

  function press(finding, key) {
    const target = finding.querySelector('[data-key="' + key + '"]');
    if (!target) return;
    if (target.tagName === "INPUT") target.focus(); else target.click();
  }

  const actions = {
    n: () => go(1),
    p: () => go(-1),
    a: () => current() && press(current(), "a"),
    e: () => current() && press(current(), "e"),
    d: () => current() && press(current(), "d"),
    h: () => current() && hear(current()),
    s: () => player && player.pause(),
    u: () => { const undo = document.querySelector("[data-undo]"); if (undo) undo.click(); },
    "?": () => { const keys = document.getElementById("keys"); if (keys) { keys.focus(); keys.scrollIntoView(); } },
  };
  const use = document.getElementById("use-keys");
  const remembered = (() => { try { return localStorage.getItem("miner-keys"); } catch { return null; } })();
  if (use) {
    use.checked = remembered !== "off";
    use.addEventListener("change", () => { try { localStorage.setItem("miner-keys", use.checked ? "on" : "off"); } catch { /* kept for this page only */ } });
    document.addEventListener("keydown", (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey || event.repeat || !use.checked || typing(event.target)) return;
      const action = actions[event.key];
      if (action) { event.preventDefault(); action(); }
    });
  }
  window.addEventListener("hashchange", focusHash);
  focusHash();
})();
