"""What a browser measures of a sheet, label by label and figure by figure. Each script answers what is wrong."""

CUT = """() => {
    const seen = (e) => e.getClientRects().length > 0 && getComputedStyle(e).visibility !== "hidden";
    const short = (e) => seen(e) && e.clientWidth && e.scrollWidth > e.clientWidth + 1;
    const tables = [...document.querySelectorAll(".wide")].filter(short).map((e) => ["table", e.ariaLabel]);
    const cells = [...document.querySelectorAll("td.n, .tile b, .tool-card dd")].filter(short);
    return [...tables, ...cells.map((e) => ["figure", e.textContent])];
}"""
"""Tables and figures of which a part is out of sight."""

OVER = """() => {
    const found = [], lines = "line.leader, line.dim, line.extension, line.front, line.axis, rect.jaw";
    const box = (e) => e.getBoundingClientRect();
    const across = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left);
    const along = (a, b) => Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
    const inside = (a, b) => across(a, b) > a.width - 1 && along(a, b) > a.height - 1;
    for (const svg of document.querySelectorAll("svg.part, svg.detail, svg.sheet")) {
        const texts = [...svg.querySelectorAll("text")].filter((e) => box(e).width > 0);
        texts.forEach((text, n) => {
            const a = box(text), name = text.textContent;
            if (!inside(a, box(svg))) { found.push(["outside", name]); }
            for (const other of texts.slice(n + 1)) {
                const b = box(other);
                if (across(a, b) > 1 && along(a, b) > a.height / 4) { found.push(["over", name, other.textContent]); }
            }
            for (const line of svg.querySelectorAll(lines)) {
                const w = across(a, box(line)), h = along(a, box(line));
                if (w >= 0 && h >= 0 && (w > 3 || h > a.height / 4)) { found.push(["on", name, line.classList[0]]); }
            }
        });
    }
    return found;
}"""
"""Labels that lie on one another, on a line or on hatching, or outside of their picture."""
