/** Faults that are none: the line with the slip means the same as the line without, for the reason given. */
export interface Equal {
  readonly room: string;
  /** Part of the path, where the line stands in more files than one. */
  readonly file?: string;
  /** The line, or what of it is the same wherever the slip is. */
  readonly before: RegExp;
  /** What the slip leaves; any without. */
  readonly after?: RegExp;
  readonly why: string;
}

export const EQUAL: readonly Equal[] = [
  {
    room: "study",
    file: "deployment.ts",
    before: /^return left > 1e-9 \* metres \? null : out;/,
    why: "how much rounding a length may have; lengths told are metres, not nanometres, beyond a rode",
  },
  {
    room: "study",
    before: /a\.id < b\.id \? -1 : 1/,
    after: /a\.id < b\.id \? -[1-9] : [1-9]/,
    why: "a sort asks only for the sign",
  },
  {
    room: "study",
    file: "holding-rows.ts",
    before: /^const ASIDE = 1e-3;/,
    why: "how far aside a slope is taken; central differences of a smooth curve agree to a millionth",
  },
  {
    room: "quantity",
    file: "nearest-name.ts",
    before: /one\[i - 1\] === other\[j - 2\]/,
    after: /i >= 1|j >= 1/,
    why: "before a name begins there is no sign that could be the same",
  },
  {
    room: "rode",
    file: "lay-out.ts",
    before: /miss <= FINE \* closed \|\| /,
    after: /miss > nearest/,
    why: "how soon a search that is closed stops closing further",
  },
  {
    room: "rode",
    file: "sweep-excess.ts",
    before: /^next = lo === 0 \? hi \/ 16/,
    why: "where the search looks while Newton's step lies outside its bracket; it closes on the same root",
  },
  {
    room: "rode",
    file: "walk.ts",
    before: /^height\.slope = probe\.V/,
    why: "the slope only says where a bracketed search looks next; it closes on the same root",
  },
  {
    room: "study",
    file: "deployment.ts",
    before: /!agree\(toldMetres, filedLength/,
    after: /!agree\(filedLength, toldMetres/,
    why: "two lengths agree whichever is named first",
  },
  {
    room: "study",
    file: "evidence.ts",
    before: /isSame\(known, doubt\)/,
    after: /isSame\(doubt, known\)/,
    why: "two doubts are the same whichever is named first",
  },
  {
    room: "study",
    file: "carried.ts",
    before: /\{ (?:mass|length): 1 \+ by \}|\{ rise: by \}/,
    after: /1 - by|rise: -by/,
    why: "a part of the budget is a size: moved either way it is the same",
  },
  {
    room: "study",
    file: "deployment.ts",
    before: /^if \(Math\.abs\(by\) <= 1e-12 \* metres\) return inWater;/,
    why: "saves making a rode anew whose length differs by rounding",
  },
  {
    room: "gear",
    before: /Math\.round\(row\.nominal \* 1e6\)/,
    after: /nominal \* \d+\)/,
    why: "sizes are told apart by a whole number of some small part of a metre; which part does not matter",
  },
  {
    room: "sea",
    before: /^let x = y < 1 \? Math\.sqrt\(y\)/,
    why: "the first guess of a search by Newton that ends at rounding from either",
  },
  {
    room: "statistics",
    before: /dof >= 20 && w \* w <= 2/,
    after: /dof >= \d+ && w \* w <= \d/,
    why: "chooses between two expansions that both hold about there",
  },
  {
    room: "figure",
    before: /^const steps = Math\.min\(\d+, Math\.max\(1, Math\.ceil/,
    after: /Math\.min\(\d+, /,
    why: "how many small boxes stand for a curve that words keep clear of",
  },
  {
    room: "quantity",
    file: "nesting.ts",
    before: /^for \(let i = 0; i < text\.length; i\+\+\) \{/,
    after: /i <= text\.length/,
    why: "past the end of a text there is no sign: the walk ends a step later, at the same end",
  },
  {
    room: "quantity",
    file: "nesting.ts",
    before: /text\.charCodeAt\(i\) !== QUOTE/,
    after: /i <= text\.length/,
    why: "past the end of a text there is no sign: the walk ends a step later, at the same end",
  },
  {
    room: "numeric",
    file: "block-tridiagonal.ts",
    before: /new Float64Array\(9 \* count\)/,
    after: /\((?:90|18|10) \* count\)/,
    why: "room beyond the last block, which nothing reads",
  },
  {
    room: "statistics",
    file: "no-u-turn.ts",
    before: /^for \(let i = 0; i < n; i\+\+\) \{/,
    after: /i <= n;/,
    why: "what is written past the end of a typed array is dropped",
  },
  {
    room: "statistics",
    file: "no-u-turn.ts",
    before: /^this\.#energyMean = 0;/,
    after: /#energySteps = 0/,
    why: "the first energy of a run makes the mean its own, whatever it was before",
  },
  {
    room: "rode",
    file: "pull-for-angle.ts",
    before: /^if \(!\(next > H\)\) next = 8 \* H;/,
    why: "how far the search steps while it has no bracket; it closes on the same root",
  },
  {
    room: "rode",
    file: "drag-stepper.ts",
    before: /^h \*= Math\.max\(0\.1, 0\.9 \* error/,
    why: "how long a step is tried next; each step's error is held to the same bound",
  },
  {
    room: "rode",
    file: "solve.ts",
    before: /^const dL = fL > 0 \?/,
    why: "the first step of a search that ends on the same state",
  },
  {
    room: "motion",
    file: "step.ts",
    before: /^if \(state\.loopLaw\.length > 0\) followLoops\(state\);/,
    after: /^if \(state\.\w+\.length > 0\)/,
    why: "where no rope has a loop there is none to follow",
  },
  {
    room: "motion",
    file: "elements.ts",
    before: /^(point\w+|along): f\(count \+ 1\),/,
    after: /count \+ 2/,
    why: "room beyond the last node, which nothing reads",
  },
  {
    room: "motion",
    file: "step.ts",
    before: /^for \(let i = 0; i < 3; i\+\+\) (next\[last|state\.qAcceleration)/,
    after: /i <= 3/,
    why: "what is written past the end of a typed array is dropped",
  },
  {
    room: "numeric",
    file: "maximise.ts",
    before: /^ridge = ridge === 0 \? 1e-3 : ridge \* 4;/,
    after: /\? 0\.\d+ :/,
    why: "the first of a row of ridges that are tried until one serves: the search ends on the same top",
  },
  {
    room: "numeric",
    file: "maximise.ts",
    before: /^for \(let i = 0; i < n; i\+\+\) this\.#trial\[i\] = /,
    after: /i <= n;/,
    why: "what is written past the end of a typed array is dropped",
  },
  {
    room: "rode",
    file: "trace.ts",
    before: /^const larger = new Float64Array\(2 \* trace\.data\.length/,
    after: /Array\((?:4|20) \*/,
    why: "how much room is made beforehand for further pieces",
  },
  {
    room: "rode",
    file: "settle-contact.ts",
    before: /^let lo = pull\.at === "span" \? weigh : target;/,
    why: "the force from which the bracket grows either way until it holds what is stated",
  },
  {
    room: "rode",
    file: "level-ends.ts",
    before: /^let most = rode\.totalLow \+ 1;/,
    why: "the force from which a bracket grows until it holds what is stated",
  },
  {
    room: "rode",
    file: "close-rise.ts",
    before: /^if \(!\(hi - lo > near\)\) break;/,
    after: /lo - hi/,
    why: "whether a bracket is halved on where a step of Newton's no longer moves the lift: z closes there to its rounding",
  },
  {
    room: "rode",
    file: "settle-contact.ts",
    before: /^let H = pull\.at === "span" \? Math\.abs\(rode\.totalLow\) \+ 1e-6 : target;/,
    why: "where a search begins; where it does not close from there the bracketed one does, on the same state",
  },
  {
    room: "rode",
    file: "lay-out.ts",
    before: /^const closed = stepper\.accuracy \* \(rode\.rise \+ rode\.totalLength\);/,
    after: /mostPieces|totalLow/,
    why: "how closely a walk's end is steered, itself a share of some length of the rode's order; the answer is refined after",
  },
  {
    room: "rode",
    file: "solve.ts",
    before: /^const dH = \(fH === 0 && kind === STATED_HORIZONTAL\)/,
    why: "a step that leads nowhere hands over to the search inside brackets, which ends on the same state",
  },
  {
    room: "rode",
    file: "close-legs.ts",
    before: /^\? end\.V \/ rode\.heft|^const size = \(i: number\)/,
    why: "how misses of different kinds are weighed against one another on the way; closed they are all nought",
  },
  {
    room: "rode",
    file: "drag-stepper.ts",
    before: /^return bold < most \?/,
    why: "how long a step is tried first; each step's error is held to the same bound",
  },
  {
    room: "rode",
    file: "pull-for-angle.ts",
    before: /^const weigh = rode\.totalLow \+ 1e-9;/,
    why: "the force a search begins from, and the size by which it gives up far beyond any rode",
  },
  {
    room: "log",
    file: "nmea.ts",
    before: /^const lines = linesOf\(text, 4000\);/,
    after: /linesOf\(text, \d+\)/,
    why: "how many lines are looked at to know what sentences a file has; the first some hundred tell it",
  },
  {
    room: "web",
    file: "state/address.ts",
    before: /same\(before, fields\)/,
    after: /same\(fields, before\)/,
    why: "whether two are alike does not hang on which is named first",
  },
];
