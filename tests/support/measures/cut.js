// Tables and figures of which a part is out of sight.
() => {
    const seen = (e) => e.getClientRects().length > 0 && getComputedStyle(e).visibility !== "hidden";
    const short = (e) => seen(e) && e.clientWidth && e.scrollWidth > e.clientWidth + 1;
    const tables = [...document.querySelectorAll(".wide")].filter(short).map((e) => ["table", e.ariaLabel]);
    const cells = [...document.querySelectorAll("td.n, .tile b, .tool-card dd")].filter(short);
    return [...tables, ...cells.map((e) => ["figure", e.textContent])];
}
