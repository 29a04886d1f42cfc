"use strict";
// Files: made by a process of their own, each known by the ticket of the job it was made from.

class Files {
  // ask(name, body): a request; job(): the tables as they are now
  constructor(ask, job) {
    Object.assign(this, { ask, job, now: null, run: null });
    for (const id of ["files", "files-say", "make", "stop", "bar", "files-now", "made"]) this[id] = document.getElementById(id);
    this.make.addEventListener("click", () => this.begin());
    this.stop.addEventListener("click", () => this.post("stop"));
  }

  // The job has another ticket; null where no files can be made of it.
  ticket(ticket) {
    this.now = ticket;
    this.files.hidden = !ticket && !this.run;
    this.draw();
  }

  async begin() {
    if (this.make.getAttribute("aria-disabled") === "true") return;
    try {
      this.run = await (await this.ask("make", { job: this.job() })).json();
      this.draw();
      this.watch();
    } catch (error) {
      this["files-now"].textContent = error.message;
    }
  }

  async post(name) {
    try {
      this.run = await (await this.ask(name, { ticket: this.run.ticket })).json();
    } catch (error) {
      this.run = { ...this.run, state: "failed", why: error.message, files: [] };
    }
    this.draw();
  }

  async watch() {
    while (this.run.state === "making") {
      await new Promise((done) => setTimeout(done, 250));
      await this.post("progress");
    }
  }

  get old() {
    return Boolean(this.run) && this.run.ticket !== this.now;
  }

  draw() {
    const run = this.run, making = run !== null && run.state === "making", made = run !== null && run.state === "made";
    this.make.textContent = !made ? "Make the files" : this.old ? "Make the files of the job as it is now" : "The files are made";
    this.make.setAttribute("aria-disabled", String(making || !this.now || (made && !this.old)));
    this.stop.hidden = this.bar.hidden = !making;
    const none = "The job can't be made as it is now: mend what stops it first.";
    this["files-say"].textContent = !this.now ? none : made && this.old ? "A key has changed since: the files below are of the job before that." : "Drawings, solids, cutting files and the shop book, all at once.";
    if (making) {
      this.bar.value = run.total ? run.done / run.total : 0;
      const of = this.old ? ", of the job before your last change" : "";
      this.say(run.total ? `Making ${run.now}, ${run.done} of ${run.total}${of}` : `Starting${of}`, true);
    } else if (run) {
      const said = { made: `${run.files.length} files are made.`, stopped: "Stopped: no files were made.", failed: `No files: ${run.why}` };
      this.say(said[run.state]);
    }
    this.list(made ? run : null);
  }

  // Progress is drawn, not read aloud file by file.
  say(text, quiet = false) {
    if (quiet) this["files-now"].removeAttribute("role");
    else this["files-now"].setAttribute("role", "status");
    if (this["files-now"].textContent !== text) this["files-now"].textContent = text;
  }

  list(run) {
    const shown = run ? run.ticket + this.old : "";
    if (this.made.dataset.shown === shown) return;
    this.made.dataset.shown = shown;
    if (!run) return this.made.replaceChildren();
    const folders = new Map();
    for (const one of run.files) {
      const folder = one.name.includes("/") ? one.name.split("/")[0] : "";
      folders.set(folder, [...(folders.get(folder) || []), one]);
    }
    if (run.zip.bytes) folders.set("", [...(folders.get("") || []), run.zip]);
    const heads = [...folders].sort(([a], [b]) => a.length * b.length === 0 ? a.length - b.length : 0);
    this.made.replaceChildren(
      ...heads.flatMap(([folder, files]) => [
        make("h3", { text: (folder ? `${folder}/` : "First of all") + (this.old ? " (of the earlier job)" : "") }),
        make("ul", {}, ...files.map((one) => make("li", {}, this.button(run, one)))),
      ])
    );
  }

  button(run, one) {
    const name = one.name.split("/").pop(), size = one.bytes < 1e5 ? `${Math.ceil(one.bytes / 1000)} kB` : `${(one.bytes / 1e6).toFixed(1)} MB`;
    const found = make("button", { type: "button", class: "link", text: `${name}, ${size}` });
    found.addEventListener("click", async () => {
      try {
        const answer = await this.ask("file", { ticket: run.ticket, name: one.name });
        fetchAs(await answer.blob(), (this.old ? "earlier-" : "") + name);
      } catch (error) {
        this.say(error.message);
      }
    });
    return found;
  }
}

// Hands a file to the browser's own downloads.
function fetchAs(blob, name) {
  const link = make("a", { href: URL.createObjectURL(blob), download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}
