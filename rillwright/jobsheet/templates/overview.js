"use strict";
// A page can't be told that its watch has died: it sees that nothing was written for too long.
(() => {
  const life = document.getElementById("life");
  if (!life || !life.dataset.lost) return;
  const look = () => {
    if (Date.now() / 1000 - Number(life.dataset.sign) <= Number(life.dataset.longest)) return;
    life.textContent = life.dataset.lost;
    life.classList.add("lost");
  };
  look();
  setInterval(look, 5000);
})();
