"use strict";
// Lights grooves with their sets, rows and program lines; explains lines; steps the tool through the program.
// The page is whole without it.
(function () {
  var root = document.documentElement;
  root.classList.add("js");

  function all(selector, within) {
    return Array.prototype.slice.call((within || document).querySelectorAll(selector));
  }
  function byId(id) {
    return document.getElementById(id);
  }
  function holds(element, number) {
    return (element.getAttribute("data-grooves") || "").split(" ").indexOf(String(number)) >= 0;
  }

  // On a phone a picture is wider than the screen: start at the front face, or at the place that is meant.
  all(".scroll").forEach(function (box) {
    var spot = box.querySelector(".spot");
    box.scrollLeft = spot
      ? spot.getBoundingClientRect().left - box.getBoundingClientRect().left - box.clientWidth / 2.5
      : box.scrollWidth;
  });

  // An edge behind which more follows fades.
  function mark(box) {
    var more = box.scrollWidth - box.clientWidth;
    box.classList.toggle("more-left", box.scrollLeft > 1);
    box.classList.toggle("more-right", box.scrollLeft < more - 1);
  }
  all(".scroll, .wide").forEach(function (box) {
    mark(box);
    box.addEventListener("scroll", function () { mark(box); }, { passive: true });
    window.addEventListener("resize", function () { mark(box); });
  });

  // ---- Grooves: pointing shows for as long as one points, picking stays.
  var marked = all("[data-grooves]");
  var picked = null;
  var about = byId("about"), hint = about ? about.textContent : "";

  function blocksOf(number) {
    return all("#listing li[data-grooves]").filter(function (li) { return holds(li, number); });
  }
  function light(number) {
    // One groove lights its set as well; several (of a program line or an operation) light themselves alone.
    var numbers = number === null ? [] : String(number).split(" ");
    var owner = (numbers.length === 1 && all(".groove").filter(function (g) { return holds(g, number); })[0]) || null;
    var set = owner ? owner.getAttribute("data-sets") : null;
    if (about) {
      about.textContent = owner ? owner.getAttribute("aria-label") : hint;
      about.classList.toggle("on", owner !== null);
      // On a small screen the listing may be out of sight: the blocks of a groove that stays lit stand here as well.
      (owner && number === picked ? blocksOf(number).slice(0, 3) : []).forEach(function (li) {
        about.appendChild(cell("code", li.querySelector("code").textContent));
      });
    }
    marked.forEach(function (element) {
      var mine = numbers.some(function (one) { return holds(element, one); });
      element.classList.toggle("lit", mine);
      element.classList.toggle("kin", !mine && set !== null && element.getAttribute("data-sets") === set);
    });
  }
  function pick(number) {
    picked = picked === number ? null : number;
    light(picked);
    all(".pick").forEach(function (button) {
      button.setAttribute("aria-pressed", String(button.getAttribute("data-pick") === picked));
    });
    all(".groove").forEach(function (groove) {
      groove.setAttribute("aria-pressed", String(picked !== null && holds(groove, picked)));
    });
    if (picked !== null && blocksOf(picked).length) { show(blocksOf(picked)[0]); }
  }
  // The picture is one tab stop; arrows go from groove to groove, left being toward the chuck as drawn.
  var grooves = all(".groove");
  function goTo(index) {
    var next = grooves[Math.max(0, Math.min(grooves.length - 1, index))];
    grooves.forEach(function (g) { g.setAttribute("tabindex", g === next ? "0" : "-1"); });
    next.focus();
  }
  grooves.forEach(function (groove, index) {
    var number = groove.getAttribute("data-grooves");
    groove.setAttribute("aria-pressed", "false");
    groove.setAttribute("tabindex", index ? "-1" : "0");
    groove.addEventListener("click", function () { pick(number); });
    groove.addEventListener("keydown", function (event) {
      var to = { ArrowLeft: index + 1, ArrowRight: index - 1, Home: 0, End: grooves.length - 1 }[event.key];
      if (to !== undefined) { event.preventDefault(); goTo(to); }
      if (event.key === "Enter" || event.key === " ") { event.preventDefault(); pick(number); }
    });
  });
  marked.forEach(function (element) {
    var number = element.getAttribute("data-grooves");
    element.addEventListener("mouseenter", function () { light(number); });
    element.addEventListener("focusin", function () { light(number); });
    element.addEventListener("mouseleave", function () { light(picked); });
    element.addEventListener("focusout", function () { light(picked); });
  });
  all(".pick").forEach(function (button) {
    button.addEventListener("click", function () { pick(button.getAttribute("data-pick")); });
  });
  document.addEventListener("keydown", function (event) {
    if (event.key === "Escape" && picked !== null) { pick(picked); }
  });

  // ---- Program: one tab stop, arrows from line to line, the meaning of its words beside it.
  var list = byId("listing");
  var lines = list ? all("li[data-line]", list) : [];
  var words = byId("words");
  var current = null;

  function cell(name, text, className) {
    var element = document.createElement(name);
    // A place such as Z-4.5 must not be torn at its minus by the end of a line.
    text.split(/(\S{0,12}-\d\S{0,12})/).forEach(function (part, index) {
      var piece = document.createElement("span");
      piece.className = "keep";
      piece.textContent = part;
      element.appendChild(index % 2 ? piece : document.createTextNode(part));
    });
    if (className) { element.className = className; }
    return element;
  }
  function unfold(open) {
    list.classList.toggle("open", open);
    all(".fold button", list).forEach(function (button) { button.setAttribute("aria-expanded", String(open)); });
  }
  function show(line) {
    if (!line) { return; }
    if (line.classList.contains("folded")) { unfold(true); }
    list.scrollTop += line.getBoundingClientRect().top - list.getBoundingClientRect().top - list.clientHeight / 2.5;
    explain(line, null);
  }
  function explain(line, word) {
    if (current) { current.classList.remove("current"); }
    current = line;
    line.classList.add("current");
    all(".here", list).forEach(function (w) { w.classList.remove("here"); });
    words.textContent = "";
    words.scrollTop = 0;
    var number = line.getAttribute("data-line"), sentence = line.getAttribute("data-sentence");
    var head = cell("p", "Line " + number + (sentence ? ": " + sentence : ""));
    var table = document.createElement("dl");
    all(".word", line).forEach(function (w) {
      // Kept as data, so that the browser's own bubble doesn't cover the line.
      if (w.title) { w.setAttribute("data-meaning", w.title); w.removeAttribute("title"); }
      var meaning = w.getAttribute("data-meaning");
      if (!meaning) { return; }
      if (w === word) {
        var pointed = cell("p", " " + meaning, "pointed");
        pointed.insertBefore(cell("code", w.textContent), pointed.firstChild);
        words.appendChild(pointed);
      }
      table.appendChild(cell("dt", w.textContent));
      table.appendChild(cell("dd", meaning));
    });
    words.appendChild(head);
    if (word) { word.classList.add("here"); }
    if (table.children.length) { words.appendChild(table); }
  }
  if (list) {
    list.addEventListener("mouseover", function (event) {
      var word = event.target.closest(".word");
      if (word) { explain(word.closest("li"), word); }
    });
    list.addEventListener("click", function (event) {
      if (event.target.closest(".fold")) { unfold(!list.classList.contains("open")); return; }
      var line = event.target.closest("li");
      if (line) { explain(line, event.target.closest(".word")); goToLine(Number(line.getAttribute("data-line"))); }
    });
    list.addEventListener("keydown", function (event) {
      var way = { ArrowDown: 1, ArrowUp: -1, Home: -1e6, End: 1e6 }[event.key];
      if (!way) { return; }
      event.preventDefault();
      var seen = lines.filter(function (li) { return li.offsetParent !== null; });
      var at = current ? seen.indexOf(current) : way > 0 ? -1 : seen.length;
      show(seen[Math.max(0, Math.min(seen.length - 1, at + way))]);
    });
  }
  var copy = byId("copy");
  if (copy) {
    copy.addEventListener("click", function () {
      var text = lines.map(function (li) { return li.querySelector("code").textContent; }).join("\n") + "\n";
      copyText(text, function (done) {
        copy.textContent = done ? "Copied" : "Select and copy by hand";
        window.setTimeout(function () { copy.textContent = "Copy program"; }, 4000);
      });
    });
  }
  function copyText(text, then) {
    function byHand() {
      var field = document.createElement("textarea");
      field.value = text;
      field.setAttribute("aria-label", "Program");
      document.body.appendChild(field);
      field.select();
      var done = false;
      try { done = document.execCommand("copy"); } catch (error) { done = false; }
      field.remove();
      copy.focus();
      then(done);
    }
    if (navigator.clipboard && window.isSecureContext) {
      navigator.clipboard.writeText(text).then(function () { then(true); }, byHand);
    } else {
      byHand();
    }
  }

  // ---- Size of the picture: buttons, the keys + - 0, two fingers, or the wheel with Ctrl.
  all(".zoom").forEach(function (bar) {
    var box = bar.parentNode.querySelector(".scroll"), svg = box.querySelector("svg"), size = 1, base = 0, apart = 0, fingers = {};
    function zoom(to, x, y) {
      var before = size, inner = svg.getBoundingClientRect(), outer = box.getBoundingClientRect();
      size = Math.max(1, Math.min(12, to));
      if (size === before) { return; }
      if (before === 1) { base = inner.width; }
      x = x === undefined ? outer.left + outer.width / 2 : x;
      y = y === undefined ? outer.top + outer.height / 2 : y;
      var across = (x - inner.left) / inner.width, down = (y - inner.top) / inner.height;
      box.style.height = size > 1 ? outer.height + "px" : "";
      svg.style.width = size > 1 ? base * size + "px" : "";
      svg.style.maxHeight = size > 1 ? "none" : "";
      inner = svg.getBoundingClientRect();
      box.scrollLeft += inner.left + across * inner.width - x;
      box.scrollTop += inner.top + down * inner.height - y;
      mark(box);
    }
    all("button", bar).forEach(function (button) {
      var way = Number(button.getAttribute("data-zoom"));
      button.addEventListener("click", function () {
        zoom(way ? size * Math.pow(1.5, way) : 1);
        // On a narrow screen the picture is wider than its box, unless all of it is asked for.
        svg.style.minWidth = way ? "" : "0";
        mark(box);
      });
    });
    box.addEventListener("keydown", function (event) {
      var to = { "+": size * 1.5, "=": size * 1.5, "-": size / 1.5, "0": 1 }[event.key];
      if (to && !event.ctrlKey && !event.metaKey) { event.preventDefault(); zoom(to); }
    });
    box.addEventListener("wheel", function (event) {
      if (event.ctrlKey) { event.preventDefault(); zoom(size * Math.exp(-event.deltaY / 200), event.clientX, event.clientY); }
    }, { passive: false });
    box.addEventListener("pointerdown", function (event) { fingers[event.pointerId] = [event.clientX, event.clientY]; apart = 0; });
    box.addEventListener("pointermove", function (event) {
      if (!fingers[event.pointerId]) { return; }
      fingers[event.pointerId] = [event.clientX, event.clientY];
      var at = Object.keys(fingers).map(function (one) { return fingers[one]; });
      if (at.length !== 2) { return; }
      var now = Math.hypot(at[0][0] - at[1][0], at[0][1] - at[1][1]);
      if (apart) { zoom(size * now / apart, (at[0][0] + at[1][0]) / 2, (at[0][1] + at[1][1]) / 2); }
      apart = now;
    });
    ["pointerup", "pointercancel", "pointerleave"].forEach(function (name) {
      box.addEventListener(name, function (event) { delete fingers[event.pointerId]; apart = 0; });
    });
  });

  // ---- Stepping: the tool stands where the moves so far have brought it, the metal lacks what they took.
  var data = byId("stepping") ? JSON.parse(byId("stepping").textContent) : null;
  var slider = byId("step");
  var timer = null;

  function px(z) { return data.x0 + z / data.per * data.k; }
  function py(x) { return data.y0 - x / 2 / data.per * data.k; }

  // Every side is looked at with the insert above the metal: u along its width, h away from the metal.
  var SIDES = {
    outside: { to: function (x, y) { return [x, -y]; }, back: function (u, h) { return [u, -h]; }, open: function () { return -data.top; } },
    inside: { to: function (x, y) { return [x, y]; }, back: function (u, h) { return [u, h]; }, open: function () { return data.y0; } },
    face: { to: function (x, y) { return [-y, x]; }, back: function (u, h) { return [h, -u]; }, open: function () { return data.right; } }
  };
  function lowerHull(points) {
    // A convex edge moved along a straight line sweeps the hull of its two ends (monotone chain, Andrew 1979).
    points.sort(function (a, b) { return a[0] - b[0] || a[1] - b[1]; });
    var hull = [];
    points.forEach(function (p) {
      while (hull.length > 1) {
        var a = hull[hull.length - 2], b = hull[hull.length - 1];
        if ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0) { break; }
        hull.pop();
      }
      hull.push(p);
    });
    return hull;
  }
  function swept(tool, ends) {
    var side = SIDES[tool.side], points = [];
    ends.forEach(function (end) {
      tool.edge.forEach(function (corner) { points.push([end[0] + corner[0], end[1] + corner[1]]); });
    });
    var hull = lowerHull(points), open = side.open();
    hull.unshift([hull[0][0], open]);
    hull.push([hull[hull.length - 1][0], open]);
    return "M" + hull.map(function (p) {
      var at = side.back(p[0], p[1]);
      return at[0].toFixed(2) + " " + at[1].toFixed(2);
    }).join("L") + "Z";
  }
  function cutPath(count) {
    // Of the pecks at one place only the deepest shows, which keeps the path short.
    var plunges = {}, others = {};
    for (var i = 0; i < count; i++) {
      var move = data.moves[i], tool = data.tools[move[1]];
      if (!move[2] || !tool) { continue; }
      var side = SIDES[tool.side];
      var a = side.to(px(move[4]), py(move[3])), b = side.to(px(move[6]), py(move[5]));
      if (Math.abs(a[0] - b[0]) < 1e-9) {
        var key = move[1] + " " + a[0];
        var deep = Math.min(a[1], b[1]);
        if (!plunges[key] || plunges[key].deep > deep) { plunges[key] = { deep: deep, tool: tool, at: [a[0], deep] }; }
      } else {
        others[move.join(" ")] = swept(tool, [a, b]);
      }
    }
    var path = Object.keys(plunges).map(function (key) { return swept(plunges[key].tool, [plunges[key].at]); }).join("");
    path += Object.keys(others).map(function (key) { return others[key]; }).join("");
    return path || "M0 0";
  }
  function trail(count) {
    // The way so far takes the place of the whole way, rapids and feeds apart.
    [0, 1].forEach(function (feed) {
      var path = document.querySelector(feed ? ".trail.feed" : ".trail.rapid"), seen = {}, steps = "";
      for (var i = 0; path && i < count; i++) {
        var m = data.moves[i];
        if (m[2] !== feed) { continue; }
        var step = "M" + px(m[4]).toFixed(2) + " " + py(m[3]).toFixed(2) + "L" + px(m[6]).toFixed(2) + " " + py(m[5]).toFixed(2);
        if (!seen[step]) { seen[step] = true; steps += step; }
      }
      if (path) { path.setAttribute("d", steps || "M0 0"); }
    });
  }
  function figure(counts) {
    return counts >= data.unknown ? " not told yet," : (counts / data.per).toFixed(data.decimals);
  }
  function place(count) {
    var move = count ? data.moves[count - 1] : data.moves[0];
    var x = count ? move[5] : move[3], z = count ? move[6] : move[4];
    var tool = data.tools[move[1]];
    all(".tool").forEach(function (shape) {
      var mine = tool && shape.getAttribute("data-tool") === tool.name;
      shape.style.display = mine ? "" : "none";
      if (mine) { shape.setAttribute("transform", "translate(" + px(z).toFixed(2) + " " + py(x).toFixed(2) + ")"); }
    });
    return "X" + figure(x) + " Z" + figure(z);
  }
  function stepTo(index) {
    var last = data.stops.length;
    index = Math.max(0, Math.min(last, index));
    slider.value = index;
    var stop = index ? data.stops[index - 1] : [0, 0];
    byId("part-picture").classList.toggle("stepping", true);
    byId("cuts").setAttribute("d", cutPath(stop[1]));
    trail(stop[1]);
    var where = place(stop[1]).replace(/,$/, "");
    var line = stop[0] ? byId("L" + stop[0]) : null;
    var now = byId("now");
    now.textContent = "";
    if (line) {
      now.appendChild(cell("code", line.querySelector("code").textContent));
      now.appendChild(cell("span", "  line " + stop[0] + ", stop " + index + " of " + last + ". Tool at " + where + (line.getAttribute("data-sentence") ? ". " + line.getAttribute("data-sentence") : "")));
      show(line);
    } else {
      now.appendChild(cell("span", "Before the first block. Tool at " + where + "."));
      if (current) { current.classList.remove("current"); current = null; }
    }
    slider.setAttribute("aria-valuetext", line ? "line " + stop[0] + ", tool at " + where : "before the first block");
  }
  function goToLine(number) {
    if (!data) { return; }
    for (var i = data.stops.length - 1; i >= 0; i--) {
      if (data.stops[i][0] === number) { halt(); stepTo(i + 1); return; }
    }
  }
  function halt() {
    if (timer !== null) { window.clearInterval(timer); timer = null; }
    byId("play").textContent = "Run";
    byId("now").setAttribute("aria-live", "polite");
    byId("play").setAttribute("aria-pressed", "false");
  }
  if (data && slider) {
    slider.addEventListener("input", function () { halt(); stepTo(Number(slider.value)); });
    byId("back").addEventListener("click", function () { halt(); stepTo(Number(slider.value) - 1); });
    byId("next").addEventListener("click", function () { halt(); stepTo(Number(slider.value) + 1); });
    byId("play").addEventListener("click", function () {
      if (timer !== null) { halt(); return; }
      if (Number(slider.value) >= data.stops.length) { stepTo(0); }
      byId("play").textContent = "Halt";
      byId("now").setAttribute("aria-live", "off");
      byId("play").setAttribute("aria-pressed", "true");
      timer = window.setInterval(function () {
        stepTo(Number(slider.value) + 1);
        if (Number(slider.value) >= data.stops.length) { halt(); }
      }, Math.max(60, Math.min(600, 20000 / data.stops.length)));
    });
  }
})();
