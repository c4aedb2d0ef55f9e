// examples/embed/web/log.js - a training log kept in this browser, and the sets of today
//
// The log is CSV as the library writes it; the library reads every line of it, and of what is taken
// in. Today's sets stand apart until the day is over, as the rest of a session is planned from them.
// SPDX-License-Identifier: BSL-1.0

const stored_log = "barwright.log";
const stored_today = "barwright.today";

export class KeptLog {
  /** @param library  as library.js starts it */
  constructor(library, today) {
    this.library = library;
    this.day = today;
    this.csv = "";
    this.today = [];
    this.is_lasting = true;
    this.lifters = [];
    try {
      this.csv = localStorage.getItem(stored_log) ?? "";
      this.today = JSON.parse(localStorage.getItem(stored_today) ?? "[]");
    } catch {
      this.is_lasting = false;
    }
    this.close_day();
    this.lifters = this.read(this.csv).lifters ?? [];
  }

  /** What the library understands of a log; of none, a blank one. */
  read(csv) {
    return this.library.ask({ version: 1, ask: "read_log", ...(csv && { log_csv: csv }) });
  }

  /** Everything as CSV, today's sets included. */
  get whole_csv() {
    let csv = this.csv;
    for (const { lifter, ...set } of this.today) csv = this.with_sets(csv, lifter, [set]).csv;
    return csv || this.read("").csv;
  }

  with_sets(csv, lifter, sets) {
    return this.library.ask({ version: 1, ask: "read_log", ...(csv && { log_csv: csv }), lifter, log: sets });
  }

  /** Takes in a file. Gives back what the library says of it; on "bad_request" nothing has changed. */
  take_in(text) {
    const answer = this.library.ask({ version: 1, ask: "read_log", log_csv: text });
    if (answer.outcome === "log") this.save(answer.csv, this.today);
    return answer;
  }

  /** Keeps a set of today; the library's refusal of it, or nothing. */
  keep(lifter, set) {
    const answer = this.with_sets("", lifter, [set]);
    if (answer.outcome !== "log") return answer.message;
    this.save(this.csv, [...this.today, { lifter, ...set }]);
    return "";
  }

  forget() {
    this.save("", []);
  }

  /** Sets of an earlier day go into the log. */
  close_day() {
    const is_over = ({ date }) => date < this.day;
    if (!this.today.some(is_over)) return;
    let csv = this.csv;
    for (const { lifter, ...set } of this.today.filter(is_over)) csv = this.with_sets(csv, lifter, [set]).csv;
    this.save(csv, this.today.filter((set) => !is_over(set)));
  }

  save(csv, today) {
    if (csv !== this.csv) this.lifters = this.read(csv).lifters ?? [];
    this.csv = csv;
    this.today = today;
    try {
      localStorage.setItem(stored_log, csv);
      localStorage.setItem(stored_today, JSON.stringify(today));
    } catch {
      this.is_lasting = false;
    }
  }
}
