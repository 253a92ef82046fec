import { inBoth, right, type Script, wrong } from "@/lib/domain/rehearsal-script";

/** Breathing system, ventilator, scavenging, and how it is left. The sights are common practice, no source. */
export const BREATHING_SCRIPTS: readonly Script[] = [
  {
    item: "circuit",
    healthy: right(
      ["Look along both limbs", "Whole and complete."],
      ["Look at mask and bag", "The right size; no plug left in."],
    ),
    faults: [
      wrong(
        "plug-in-circuit",
        "A plug of plastic was left in the mask elbow.",
        "Nothing passes: it looks like a spasm of the airway.",
        ["Look along both limbs", "Whole and complete."],
        ["Look at mask and bag", "In the elbow a clear cap from the packing is still in its place."],
      ),
    ],
  },
  {
    item: "breathing-leak",
    healthy: {
      truth: { kind: "number", reading: inBoth(30, 110, "mL/min") },
      acts: [
        ["Shut APL, block the Y-piece, flush to 30 cmH₂O", "The needle stands at 30."],
        ["Raise the flow until it stays", "{reading} keep it there."],
      ],
    },
    faults: [
      {
        id: "canister-leaks",
        wrong: "The breathing system leaked at the canister.",
        harm: "Weak breaths, and room air or waste gas where it should not be.",
        truth: { kind: "number", reading: inBoth(620, 1400, "mL/min") },
        acts: [
          ["Shut APL, block the Y-piece, flush to 30 cmH₂O", "The needle goes to 30 and sinks."],
          ["Raise the flow until it stays", "{reading} keep it there. It hisses at the canister."],
        ],
      },
    ],
  },
  {
    item: "apl",
    healthy: right(["Shut it", "30 cmH₂O hold."], ["Open it", "The needle falls to zero at once."]),
    faults: [
      wrong(
        "apl-sticks",
        "The APL valve did not open.",
        "Pressure builds up in the lungs.",
        ["Shut it", "30 cmH₂O hold."],
        ["Open it", "The knob turns; the needle stays at 28."],
      ),
    ],
  },
  {
    item: "valves",
    healthy: right(
      ["Squeeze the bag", "The inspiratory disc rises, the other lies."],
      ["Let the test lung empty", "The expiratory disc rises, the other lies."],
    ),
    faults: [
      wrong(
        "disc-missing",
        "The expiratory disc was missing.",
        "The patient breathes the same gas again.",
        ["Squeeze the bag", "The inspiratory disc rises, the other seems to lie."],
        ["Let the test lung empty", "Under the expiratory dome nothing moves. There is no disc."],
      ),
    ],
  },
  {
    item: "ventilator",
    healthy: right(
      ["Ventilate the test lung", "The volume is delivered."],
      ["Watch the bellows for two minutes", "It fills to the top each time."],
    ),
    faults: [
      wrong(
        "bellows-sinks",
        "The bellows sank a little with each breath.",
        "Within minutes no volume is delivered.",
        ["Ventilate the test lung", "The volume is delivered."],
        ["Watch the bellows for two minutes", "It returns a little lower each time; after a minute it lies at half."],
      ),
    ],
  },
  {
    item: "scavenging-extraction",
    healthy: right(
      ["Look at the flow indicator", "The float stands between its marks."],
      ["Look at the reservoir", "Neither flat nor full."],
    ),
    faults: [
      wrong("scavenging-off", "Waste gas was not extracted.", "It stays in the room with the staff.", [
        "Look at the flow indicator",
        "The float lies at the bottom.",
      ]),
    ],
  },
  {
    item: "final-state",
    healthy: right([
      "Go over it once more, top to bottom",
      "Vaporizers at zero, APL open, selector on bag, flows at minimum, suction on, mask in place.",
    ]),
    faults: [
      wrong(
        "vaporizer-left-on",
        "A vaporizer was left on.",
        "The first patient breathes agent from the first breath.",
        [
          "Go over it once more, top to bottom",
          "APL open, selector on bag, flows at minimum, suction on, mask in place. The second vaporizer stands at 2 %.",
        ],
      ),
    ],
  },
];
