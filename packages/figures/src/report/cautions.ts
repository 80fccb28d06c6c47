import type { Cabinet } from "@startgap/cabinet";
import type { Circuit, PartParameters } from "@startgap/circuit";
import { html, type Markup } from "./markup.ts";
import { isRecord, statedParts } from "./stated.ts";

const INSULATES_NOT =
  "An autotransformer does not isolate: one open winding can put up to the full line voltage on a load.";

const ALWAYS =
  "Estimates from stated inputs, not a code calculation. Nameplate and maker\u2019s curves win; local code and a licensed " +
  "electrician decide. De-energise and prove dead before opening.";

const holds = ({ parts }: Circuit, is: PartParameters["is"]): boolean => parts.some((part) => part.is === is);

/** What every report says once at its top, as one line. */
export function cautionLine({ circuit }: Cabinet): Markup {
  const auto = holds(circuit, "autotransformer") ? ` ${INSULATES_NOT}` : "";
  return html`<p class="caution-line"><strong>Read first.</strong> ${ALWAYS}${auto} <a href="#cautions">All cautions stand at the end.</a></p>\n`;
}

interface Caution {
  readonly title: string;
  readonly says: string;
  /** Left out where nothing of the kind is in the cabinet. */
  readonly concerns?: (cabinet: Cabinet) => boolean;
}

const has =
  (...kinds: readonly PartParameters["is"][]) =>
  ({ circuit }: Cabinet): boolean =>
    kinds.some((is) => holds(circuit, is));

const hasCapacitor = ({ circuit }: Cabinet): boolean =>
  circuit.parts.some(
    (part) => part.is === "motor" && (part.machine.startCapacitor ?? part.machine.runCapacitor) !== null,
  );
const drivesCompressor = (cabinet: Cabinet): boolean =>
  statedParts(cabinet).some(({ drives }) => isRecord(drives) && drives.is === "compressor");

/** In the order in which they may hurt; all of them common practice. */
const cautions: readonly Caution[] = [
  {
    title: "What this is",
    says:
      "Estimates from stated inputs. No code calculation, no approval, no protection study. Where a nameplate or a maker\u2019s " +
      "curve says otherwise, it wins. Local code, the authority that has to approve, and a licensed electrician decide.",
  },
  {
    title: "Before opening",
    says:
      "Switch off, lock off, and prove dead with a meter that was just seen to work: line to line, and each line to ground. " +
      "A cabinet in which nothing moves can be live.",
  },
  {
    title: "A fuse in a neutral is no protection",
    says:
      "When it opens, the load is dead and its other wire still live. A grounded conductor may carry a fuse only where every " +
      "pole opens with it. Whether the midpoint of a transformer counts as one is a question for the authority.",
    concerns: has("fuse", "autotransformer"),
  },
  {
    title: "One line fuse gone",
    says:
      "Everything looks dead and the other line is still live inside. Put both fuses in one disconnect that opens both lines. " +
      "Where the midpoint is bonded to ground, the ground wire may carry the load\u2019s current and keep one half alive.",
    concerns: has("fuse"),
  },
  {
    title: "An autotransformer does not isolate",
    says:
      "One open winding or a lost midpoint can put up to the full line voltage on a load of the lower one. Some authorities do " +
      "not let it feed receptacles at all; whether and where its midpoint is bonded is theirs to say.",
    concerns: has("autotransformer"),
  },
  {
    title: "First power on a reconnected transformer",
    says:
      "A winding the wrong way round is close to a short circuit. Do the polarity readings at reduced voltage, or through a lamp " +
      "in series, before the fuses go in.",
    concerns: has("autotransformer"),
  },
  {
    title: "Ground-fault devices behind a midpoint",
    says: "They may trip at a start, or fail to trip when they should. Test with a real load to ground, not with the button alone.",
    concerns: has("autotransformer"),
  },
  {
    title: "Charged capacitors",
    says: "Start and run capacitors hold hundreds of volts after switching off. Bleed them and prove it with a meter.",
    concerns: hasCapacitor,
  },
  {
    title: "Motors start by themselves",
    says:
      "When power or pressure returns, or a thermal protector cools, they start without warning. The delay makes that worse: the " +
      "second motor starts when people think it is over. Lock off, put up a label, guard belts and fans.",
    concerns: has("motor"),
  },
  {
    title: "After a blip",
    says:
      "A dip too short for the delay relay to forget its count lets the contactor go and take both motors in again together, " +
      "without a delay and against whatever they had pumped up.",
    concerns: has("delay relay"),
  },
  {
    title: "A motor that does not come up",
    says: "Switch off what is not up to speed in 5 s: a start winding burns in seconds to minutes.",
    concerns: has("motor"),
  },
  {
    title: "Nuisance blows",
    says: "Never cure them with a larger or quicker fuse, another class that fits the clip, or a bridge: the wire burns instead. Find out why.",
    concerns: has("fuse"),
  },
  {
    title: "A chattering contactor",
    says:
      "It can weld within seconds; a motor then runs on past its control. Do not hold a contactor in by hand. Where a tank hangs " +
      "on it, the relief valve is the last thing left: test it.",
    concerns: has("contactor"),
  },
  {
    title: "Pressure",
    says:
      "Drain the tank, test the relief valve, and mind the check valve: one that leaks makes every start a loaded one, which this " +
      "report then does not describe.",
    concerns: drivesCompressor,
  },
  {
    title: "Heat",
    says: "Transformers run hot enough to burn, idle too. Keep wires, relays and hands away and the vents open; fuses beside them open sooner.",
    concerns: has("transformer", "autotransformer"),
  },
  {
    title: "A loose joint",
    says:
      "Lights that flicker more on one leg, or brighten, point to a joint, not to a motor. Stop and tighten before going on: the " +
      "end of it is a glowing lug.",
  },
  {
    title: "Cords",
    says: "A thin extension cord, or plugging in again at once, has melted plugs. Wait a few minutes before a loaded machine gets power again.",
    concerns: has("motor"),
  },
  {
    title: "Measuring",
    says: "Work on live parts is for those trained for it: a meter of the right category, one conductor in the jaw, no fuse pulled under load.",
  },
];

/** What this report cannot know, whoever approves must. */
const UNKNOWNS: readonly string[] = [
  "Where and whether the neutral, midpoint and frames are bonded and grounded: the cabinet file does not say.",
  "Earth faults, touch voltages, arc flash, selectivity between devices, and what wire the local code demands.",
  "Joints, wear, cold oil and leaking valves beyond the load torque that is stated.",
  "The first cycles in detail: voltages and currents here are rms values of the mains frequency.",
];

/** Every caution that concerns this cabinet, in full, and what the report cannot know. */
export function cautionSection(cabinet: Cabinet): Markup {
  const own = cautions.filter(({ concerns }) => concerns?.(cabinet) ?? true);
  return html`<section id="cautions" aria-labelledby="cautions-heading">
<h2 id="cautions-heading">Cautions</h2>
<dl>
${own.map(({ title, says }) => html`<div><dt>${title}</dt><dd>${says}</dd></div>\n`)}</dl>
<h3>What is not known here</h3>
<ul>
${UNKNOWNS.map((says) => html`<li>${says}</li>\n`)}</ul>
</section>
`;
}
