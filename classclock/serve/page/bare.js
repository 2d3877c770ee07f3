// A screen that was given no address: it shows six digits until the coach lets it in.

const AGAIN = 2000; // ms until it asks again

function knock() {
  const digits = document.getElementById("digits");
  const told = document.getElementById("told");
  const source = new EventSource("/knock");
  source.addEventListener("digits", (event) => {
    digits.textContent = JSON.parse(event.data);
    told.textContent = "Ask the coach to let this screen in by these digits";
  });
  source.addEventListener("path", (event) => {
    source.close();
    location.replace(JSON.parse(event.data));
  });
  source.addEventListener("error", () => {
    source.close();
    digits.textContent = "";
    told.textContent = "No link to the laptop, or too many screens ask: one moment";
    setTimeout(knock, AGAIN);
  });
}

knock();
