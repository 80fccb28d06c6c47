import { describe, expect, it } from "vitest";
import { surface } from "./exports.ts";
import { type PackageName, packages } from "./sources.ts";

/** The public surface of every package, values and types, kept by hand: whoever adds a name adds it here. */
const pinned: Readonly<Record<PackageName, string>> = {
  ode: `
    Columns Counts Ending Event Flow Guard Jump Outcome Plant Recorder Rest Run RunOptions SAME_MOMENT_s
    Standing columns crossing run`,
  circuit: `
    AutotransformerParameters Auxiliary CableParameters Circuit CircuitPlant ClosedBy Coil CoilBurden
    Compressor ContactorMode ContactorParameters ControlParameters Core CoreShape CurrentSense CurrentStep DelayRelayMode
    DelayRelayParameters Delivery DemandStep Excitation FuseParameters GeneratorMode GeneratorSource HeadMode
    Impedance InverterMode InverterSource Layout Leg LoadParameters LoadTorque LockOutMode
    LockOutTimerParameters Machine MeltResponse MeltTerms Mode MotorMode MotorParameters MotorPoint
    PartParameters PilotSwitchParameters Place PowerBalance PressureSwitchMode PressureSwitchParameters
    ReceiverMode ReceiverParameters Script StartSwitch SupplyParameters TransformerParameters Unloader
    USUAL_CORE VoltageStep Walk WavePlant WaveStart WaveWalk MachineAt asStated atFrequency auxiliaryBranch blankMachineAt coreOf currentInto isLoaded kirchhoffResidual loadTorque_Nm machineAdmittance magnitude
    meltAfter meltFraction meltResponse meltSettled meltingCurrent_A meltingTime_s namesIn plantOf
    powerBalance steadyState synchronousSpeed_radps unphysicalCooling waveBalance wavePlantOf`,
  cabinet: `
    AMBIENT_C AmpacityRow Assumption Build CODE_LETTERS Cabinet CabinetFile CabinetRead CableFacts CableSpec
    ClassFuse Conductor ContactorFacts CurvePoint CurveTable Day DelayRelayFacts Derived Drive DriveSpec Enclosure
    EnclosureMaterial Example FitOptions FuseBand FuseCurve FuseFacts FuseSpec HORSEPOWER_W MotorFacts
    MotorInsulation Mounting PartFacts Sun TransformerFacts TransformerInsulation_C
    Gate Grade ImpedanceRange Issue LegCurrents LegOf Losses
    MOTOR_TYPES MeltFit MeltKind Metal MeterAccuracy MeterReading MotorType Nameplate Phasor PlateMotor
    PointPlace Range RangedQuantity RatedTemperature ReconnectedRatings Reconnection Relay Run
    ShortCircuitLimit Sides SupplyFound SupplySpec TestReading TransformerFound TransformerSpec Windings
    adiabaticArea_m2 adiabaticK ambientCorrection ambientFactor ampacityBasis cabinetSchema cableImpedance
    codeLetterOf codeLetterRange conductorNamed conductorNames conductorReactance_ohmPerM
    conductorResistance_ohmPerM copperAmpacity copperAmpacity_A currentMargin derated driveOf efficiencyAt
    dimensions examples fitMelt fuseClassNames fuseFromClass gaugeArea_m2 gaugeDiameter_m holdTime_s iceaWithstand_A
    isRange issueText legCurrents legVoltages lockedRotorLimit_A lossAt_W meltOf motorFromNameplate
    nearestName onderdonkFusing_A parseCabinet preeceFusing_A quantityOf ratedLosses readCabinet readCurveCsv reconnected
    regulationAt runs seenFromInput seenFromLeg seenFromSecond shortCircuitLimits sidesAt
    smallConductorLimit_A sourceSeenFromLeg supplyFrom tableFullLoadCurrent_A tableLockedRotorCurrent_A
    throughRating_VA transformerFrom turnsShares usualCodeLetter usualFullLoadCurrent_A variations
    withstand_A2s writeCabinet`,
  study: `
    Besides NoDips besides byDanger deciding gravest gravestOf gravities onceEach unheld verdicts
    Agreement AngleTried ClampReading FirstCycles InrushStudy MotorStartReading SwitchOn WaveColumn
    WaveOptions WaveQuantity WaveStudy WaveTraces inrush longestWindow_s wave
    Cooling Cycle NeutralFirst ShortTime StartsAllowed Swing bodyOfMass capacitorStarts coolingArea_m2
    coolingFor fromTwoReadings insideRise_K neutralFirst riseAfter_K riseShare settledSwing shortTimeFactor
    shortTimeMargin stackFlow_m3ps stallTime_s startsAllowed windingTemperature_C
    BoxHeat FindingGravity FuseCandidate FuseHeat FuseWindow HeatOptions HeatReport MotorHeat PartLoss
    ProtectionFinding ProtectionReport Rules SeasonDay TransformerHeat TransformerSeason heat protect
    CabinetStanding CaseFinding CaseKind CaseName CaseReport CaseTold CasesOptions CasesReport Check CheckReport Column
    ContactorResult DelayAdvice DelayMap DipEdges DipEnd DipMap DipOptions DipOutcome FailureEvent
    FailureGravity FailureInstant FailureKind FailureMoment FailureMotor FailurePoint FailureReport FailureRow
    Finding FuseResult Influence Improvement ImproveReport MotorOutcome MotorResult OtherOrder PointResult
    PointState Quantity SourceResult Spread Story StoryEvent StudyFailure StudyOptions Traces VaryOptions
    VaryReport Verdict VoltShare WorstMoment caseKinds cases check delayMap dipSays dips failures improve
    isFailure oneDip vary Staggerer TracedCase staggerer tracesCsv DayBox DayColumn DayEnergy DayFuse
    DayMotor DayOptions DayQuantity DayReceiver DayReport DayStarts DayTraces DayTransformer DemandFrom
    HeatBalance MeltAt Most Season adiabaticRise_K day dayInSteps receiverStarts`,
  figures: `
    CurvePoint DelayMapGeometry DelayMapOptions delayMapGeometry FigureOptions LoadCurve Measured Nominals Overlay OverlayGeometry
    OverlayOptions Page Paper Reading ReportInput Selection SketchPart SpeedCurve Theme TimeCurrentInput
    TorqueSpeedInput VoltageBand cabinetInReport delayMap dipMap exceedance lowestVoltageOf dayFigure
    nominalsOf overlay reportHtml settlingSpeed_rpm singleLine svgText timeAt timeCurrent timeCurrentOf
    WaveformOptions switchOn torqueSpeed torqueSpeedOf valuesAt voltageBands waveform whereTheVoltsGo`,
};

const words = (text: string): string[] =>
  text
    .split(/\s+/)
    .filter((word) => word !== "")
    .sort();

describe("public surface", () => {
  for (const name of packages) {
    it(`${name} offers exactly the names in this table`, () => {
      expect(surface(name)).toEqual(words(pinned[name]));
    });
  }
});
