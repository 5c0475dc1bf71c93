/** Faults that were once put in by hand and seen by no test, each with the test files that must see it now. */
export interface Named {
  readonly what: string;
  readonly file: string;
  /** Stands once in the file. */
  readonly before: string;
  readonly after: string;
  readonly tests: readonly string[];
}

export const NAMED: readonly Named[] = [
  {
    what: "a current from astern is treated as one from ahead",
    file: "src/rode/contact/drag-stepper.ts",
    before: "* flow * Math.abs(flow)",
    after: "* Math.abs(flow) * Math.abs(flow)",
    tests: ["test/rode/current.test.ts"],
  },
  {
    what: "drag of chain along itself is a tenth",
    file: "src/rode/contact/drag-stepper.ts",
    before: "along: 1.15 }",
    after: "along: 0.115 }",
    tests: ["test/rode/current.test.ts"],
  },
  {
    what: "the radius stands for the diameter in the drag of a rode in a current",
    file: "src/rode/contact/drag-stepper.ts",
    before: "dragDiameter(part) * flow",
    after: "(dragDiameter(part) / 2) * flow",
    tests: ["test/rode/current.test.ts"],
  },
  {
    what: "the circle of a line's volume is taken by its radius",
    file: "src/rode/contact/drag-stepper.ts",
    before: "Math.sqrt((4 * part.massPerLength)",
    after: "Math.sqrt((1 * part.massPerLength)",
    tests: ["test/rode/current.test.ts"],
  },
  {
    what: "stiffness along a ladder in a current is half of what it is",
    file: "src/rode/load-sweep.ts",
    before: "return (2 * h) / (span(H + h)",
    after: "return h / (span(H + h)",
    tests: ["test/rode/stiffness.test.ts"],
  },
  {
    what: "stiffness along a ladder in still water is half of what it is",
    file: "src/rode/load-sweep.ts",
    before: "return 1 / give;",
    after: "return 0.5 / give;",
    tests: ["test/rode/stiffness.test.ts"],
  },
  {
    what: "the roller's height is left out when the rise is found",
    file: "src/rode/unknown.ts",
    before: "depth: value - rig.setting.rollerHeight",
    after: "depth: value",
    tests: ["test/rode/find.test.ts"],
  },
  {
    what: "the load found for a pull stated by its span is at the bow",
    file: "src/rode/find.ts",
    before: 'pull.at === "span" ? "horizontal" : pull.at;',
    after: 'pull.at === "span" ? "bow" : pull.at;',
    tests: ["test/rode/find.test.ts"],
  },
  {
    what: "the search for a pull stated by its span looks at the bow",
    file: "src/rode/find.ts",
    before: '{ at: "horizontal", newtons: value } : { at: question.pull.at',
    after: '{ at: "bow", newtons: value } : { at: question.pull.at',
    tests: ["test/rode/find.test.ts"],
  },
  {
    what: "a free fit leaves as many degrees of freedom as one with its exponent held",
    file: "src/sea/load-law.ts",
    before: "(free ? 2 : 1)",
    after: "(free ? 1 : 1)",
    tests: ["test/sea/free-fit.test.ts"],
  },
  {
    what: "a pound per square foot is ten times too large",
    file: "src/quantity/unit-table.ts",
    before: '["psf", [read(PRESSURE, 44_482_216_152_605, 929_030_400_000)]]',
    after: '["psf", [read(PRESSURE, 444_822_161_526_050, 929_030_400_000)]]',
    tests: ["test/quantity/definitions.test.ts"],
  },
  {
    what: "tex is taken for ktex",
    file: "src/quantity/unit-table.ts",
    before: '["tex", [read(MASS_PER_LENGTH, 1, 1_000_000)]]',
    after: '["tex", [read(MASS_PER_LENGTH, 1, 1000)]]',
    tests: ["test/quantity/definitions.test.ts"],
  },
  {
    what: "the load of windage is put at the anchor",
    file: "src/web/weather/loads.ts",
    before: 'at: road === "windage" ? "horizontal" : road,',
    after: 'at: road === "windage" ? "anchor" : road,',
    tests: ["test/web/loads.test.ts"],
  },
  {
    what: "the ± of a number is shown doubled",
    file: "src/web/controls/reading.tsx",
    before: "...(sure ? { u } :",
    after: "...(sure ? { u: 2 * u } :",
    tests: ["test/web/pages/match.test.tsx", "test/web/pages/rig.test.tsx"],
  },
  {
    what: "purged records come back on a merge",
    file: "src/book/unite.ts",
    before: "const kept = changes.filter(({ record }) => !isPurged(driver, record));",
    after: "const kept = changes;",
    tests: ["test/book/purge.test.ts", "test/book/exchange.test.ts", "test/book/sharing.test.ts"],
  },
  {
    what: "a damaged backup that was named is restored",
    file: "src/book/restore.ts",
    before: "if (!isGood(backup.path, ports))",
    after: "if (false as boolean)",
    tests: ["test/book/restore.test.ts"],
  },
  {
    what: "a certificate is valid for longer than any browser takes",
    file: "src/server/certificate/authority.ts",
    before: "const LEAF_DAYS = 396;",
    after: "const LEAF_DAYS = 800;",
    tests: ["test/server/certificate.test.ts"],
  },
  {
    what: "a certificate is not for servers",
    file: "src/server/certificate/authority.ts",
    before: "extensions: [mayNotIssue, signsMessages, forServers, answersTo(addresses, dnsNames)]",
    after: "extensions: [mayNotIssue, signsMessages, answersTo(addresses, dnsNames)]",
    tests: ["test/server/certificate.test.ts"],
  },
  {
    what: "5° apart is taken for the same angle in Match",
    file: "src/web/match/comparison.ts",
    before: "const SAME = 0.05 * DEGREE;",
    after: "const SAME = 5 * DEGREE;",
    tests: ["test/web/match-comparison.test.ts"],
  },
];
