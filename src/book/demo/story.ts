// An invented scenario: no such place, people, boat or anchors exist, and no such pulls were made. Times are UTC.

export const story = {
  seed: 20240514,
  title: "Skerrow Sound trials (invented)",
  description:
    "A demonstration: the place, the people, the boat and the anchors are invented, and every reading was simulated by a seeded program from a stated model plus noise. Nothing here is a measurement.",
  script: "demo script",
  sites: {
    north: { name: "Skerrow Sound, north cove (invented)", latitude_deg: 0.2517, longitude_deg: -29.4183 },
    flats: { name: "Ternhead Flats (invented)", latitude_deg: 0.2231, longitude_deg: -29.3907 },
  },
  seabeds: [
    {
      key: "sand",
      at: "north",
      name: "clean sand",
      grain: "iso-14688:fine-sand",
      description: "Level, rippled, no weed.",
      sampleNotes: "Three grabs: pale, even grains, no shell. Graded by eye against a comparison card.",
    },
    {
      key: "mud",
      at: "flats",
      name: "soft mud",
      grain: "iso-14688:medium-silt",
      description: "Level, soft to a hand's depth, then stiffer.",
      sampleNotes: "Grey, holds a thumbprint, smells of marsh.",
    },
    {
      key: "shell",
      at: "north",
      name: "sand with broken shell",
      grain: "iso-14688:coarse-sand",
      description: "A bank at the cove's mouth; shell in patches.",
      sampleNotes: "A third broken shell by volume in the second grab.",
    },
  ],
  /** Median of the load each gives way at, N, by seabed; the spread is of the logarithm. */
  anchors: [
    {
      name: "Scoop, 15 kg",
      shape: "scoop",
      mass_kg: 15,
      flukeArea_m2: 0.098,
      median: { sand: 4200, mud: 2700, shell: 3500 },
      spread: 0.22,
    },
    {
      name: "Hinged plough, 16 kg",
      shape: "hinged plough",
      mass_kg: 16,
      flukeArea_m2: 0.086,
      median: { sand: 2800, mud: 1800, shell: 2500 },
      spread: 0.25,
    },
    {
      name: "Pivoting fluke, 12 kg",
      shape: "pivoting fluke",
      mass_kg: 12,
      flukeArea_m2: 0.142,
      median: { sand: 3600, mud: 2600, shell: 2200 },
      spread: 0.42,
    },
    {
      name: "Claw, 15 kg",
      shape: "claw",
      mass_kg: 15,
      flukeArea_m2: 0.079,
      median: { sand: 2300, mud: 1500, shell: 2100 },
      spread: 0.24,
    },
  ],
  days: [
    {
      date: "2024-05-14",
      seabed: "sand",
      weather: "bright, a light breeze",
      wind_m_per_s: 4.1,
      gust_m_per_s: 6,
      windFrom_deg: 250,
      tide: "neaps, slack at 10:40",
      waterLevel_m: 1.4,
      depth_m: 6.2,
    },
    {
      date: "2024-05-15",
      seabed: "mud",
      weather: "overcast, nearly calm",
      wind_m_per_s: 2.2,
      gust_m_per_s: 3.5,
      windFrom_deg: 200,
      tide: "neaps, rising",
      waterLevel_m: 1.1,
      depth_m: 4.4,
    },
    {
      date: "2024-05-17",
      seabed: "shell",
      weather: "clearing, a moderate breeze by noon",
      wind_m_per_s: 6.8,
      gust_m_per_s: 9.5,
      windFrom_deg: 280,
      tide: "two days after neaps",
      waterLevel_m: 1.7,
      depth_m: 7.1,
    },
  ],
  pullsPerAnchor: 3,
  testers: "Ines Varrow and Tobin Askel (both invented)",
  series: {
    name: "Four shapes, three seabeds",
    question: "Which of the four holds most on each seabed, and how sure is that after nine pulls each?",
    protocol:
      "Lay at 5:1, set at 500 N for a minute, then steps of 500 N held half a minute each until it gives way or the engine gives no more. Weigh, clean, move two lengths along, next anchor. The order is drawn by lot.",
  },
  /** What the engine gives astern, N, and how much that varies from pull to pull. */
  engine: { thrust_N: 2600, u_N: 120 },
  step: { load_N: 500, seconds: 30 },
  /** The load cell hangs at the bow: noise of one reading and its zero, N. */
  cell: { noise_N: 18, zero_N: 6, everySecond: 10 },
  rig: {
    name: "Trial rode",
    first: `format: rodebench/rig@1
name: Trial rode
setting: { medium: water, depth: 6 m, rollerHeight: 1.35 m, bottomFriction: 0.6 }
rode:
  - chain: { grade: "30", size: 10 mm, length: 20 m }
  - rope: { fibre: polyamide, lay: three-strand, diameter: 14 mm, length: 17 m }
uncertainty: { massPerLength: 3 %, rise: 0.3 m }
`,
    second: `format: rodebench/rig@1
name: Trial rode
setting: { medium: water, depth: 6 m, rollerHeight: 1.35 m, bottomFriction: 0.6 }
rode:
  - swivel: { size: 3/8 in }
  - chain: { grade: "30", size: 10 mm, length: 20 m }
  - rope: { fibre: polyamide, lay: three-strand, diameter: 14 mm, length: 22 m }
uncertainty: { massPerLength: 3 %, rise: 0.3 m }
`,
    reason: "a swivel put in and the rope made longer, for the deeper bank",
  },
} as const;

export type SeabedKey = (typeof story.seabeds)[number]["key"];
