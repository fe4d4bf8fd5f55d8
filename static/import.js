// The page of a file under way: its bar moves without the page being loaded again, until there is something to see.

const part = document.querySelector("[data-progress]");
const PAUSE = 1_000;

async function look() {
  try {
    const answer = await fetch(location.href, { headers: { accept: "text/html" } });
    if (answer.ok) {
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      const now = page.querySelector("[data-progress]");
      if (!now) {
        location.reload();
        return;
      }
      part.querySelector("p").textContent = now.querySelector("p").textContent;
      part.querySelector("progress").value = now.querySelector("progress").getAttribute("value");
    }
  } catch {
    // No signal just now: it goes on at the server.
  }
  setTimeout(look, PAUSE);
}

if (part) setTimeout(look, PAUSE);
