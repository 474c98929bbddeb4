// Labels that lie on one another, on a line or on hatching, or outside of their picture.
() => {
    const kinds = ["leader", "dim", "extension", "front", "axis", "detail-leader"].map((e) => "line." + e);
    const lines = [...kinds, "rect.jaw"];
    const found = [], middle = (a) => [(a.left + a.right) / 2, (a.top + a.bottom) / 2];
    const box = (e) => e.getBoundingClientRect();
    const across = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left);
    const along = (a, b) => Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
    const inside = (a, b) => across(a, b) > a.width - 1 && along(a, b) > a.height - 1;
    const slanted = (e) => e.tagName === "line" && box(e).width > 2 && box(e).height > 2;
    const through = (e, a) => {
        const forth = e.getScreenCTM(), long = e.getTotalLength();
        for (let at = 0; at <= 1; at += .02) {
            const p = e.getPointAtLength(at * long).matrixTransform(forth);
            if (p.x > a.left && p.x < a.right && p.y > a.top && p.y < a.bottom) { return true; }
        }
        return false;
    };
    const inked = (svg, a) => {
        const back = svg.getScreenCTM().inverse(), p = svg.createSVGPoint(), ink = [];
        const hatch = [...svg.querySelectorAll("path.area")], edges = [...svg.querySelectorAll("path.metal-line")];
        for (const across of [.05, .25, .5, .75, .95]) {
            for (const down of [.25, .5, .75]) {
                p.x = a.left + across * a.width;
                p.y = a.top + down * a.height;
                const at = p.matrixTransform(back);
                ink.push(...hatch.filter((e) => e.isPointInFill(at)), ...edges.filter((e) => e.isPointInStroke(at)));
            }
        }
        return ink.length > 0;
    };
    for (const svg of document.querySelectorAll("svg.part, svg.detail, svg.sheet")) {
        const texts = [...svg.querySelectorAll("text")].filter((e) => box(e).width > 0);
        const rings = [...svg.querySelectorAll("circle.ring, circle.detail-ring")].map(box);
        texts.forEach((text, n) => {
            const a = box(text), name = text.textContent;
            if (!inside(a, box(svg))) { found.push(["outside", name]); }
            if (inked(svg, a)) { found.push(["on metal's edge or hatching", name]); }
            for (const r of svg.matches(".part") ? rings : []) {
                const off = Math.hypot(middle(a)[0] - middle(r)[0], middle(a)[1] - middle(r)[1]);
                if (off < r.width / 2) { found.push(["on a ring", name]); }
            }
            for (const other of texts.slice(n + 1)) {
                const b = box(other);
                if (across(a, b) > 1 && along(a, b) > a.height / 4) { found.push(["over", name, other.textContent]); }
            }
            for (const line of svg.querySelectorAll(lines.join())) {
                const w = across(a, box(line)), h = along(a, box(line));
                const on = slanted(line) ? through(line, a) : w >= 0 && h >= 0 && (w > 3 || h > a.height / 4);
                if (on) { found.push(["on", name, line.classList[0]]); }
            }
        });
    }
    return found;
}
