using System.Globalization;
using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Gas;

/// <summary>The answer about gas in the words of its pages.</summary>
public static class GasWords
{
    public static string Of(GasKind gas) => gas == GasKind.Oxygen ? WordTexts.GasOxygen : WordTexts.GasAir;

    public static string Capital(GasKind gas) => gas == GasKind.Oxygen ? "Oxygen" : "Air";

    public static string Of(FlowKind kind) => kind == FlowKind.MinuteVolume ? "a minute volume" : "the set flow";

    /// <summary>Where air may come from, in the words of the pages.</summary>
    public static (AirSource Source, string Words)[] AirSources { get; } =
        [(AirSource.Cylinder, "cylinder"), (AirSource.Compressor, "compressor"), (AirSource.Entrained, "room air")];

    /// <summary>When, where, from which cylinder to which.</summary>
    public static string ChangeOver(ChangeOverResponse change)
    {
        var when = change.AtMinute == 0 ? "Before leaving" : $"Minute {Number(Math.Floor(change.AtMinute * 10) / 10)}, on reaching {change.Where}";
        return $"{when}: {Of(change.Gas)} from cylinder {change.FromCylinder} to cylinder {change.ToCylinder}.";
    }

    public static string NoChangeOver(GasTimelineResponse timeline) =>
        timeline.Gases.All(gas => gas.LastsTheJourney)
            ? "None is needed: what is connected lasts to arrival, also at the low end of the band."
            : "None would help: no further cylinder is given, or none can be reached in time.";

    public static string Stall(ElevatorStallResponse stall) =>
        stall.Minutes is not { } minutes ? $"If it stalls, {stall.Where}: no cylinder is drawn."
        : $"If it stalls, {stall.Where}: {minutes} min are left on reaching it, {stall.MinutesLow} at the low end of the band"
            + (stall.MinutesWithReserve > minutes ? $", {stall.MinutesWithReserve} with the unopened cylinders carried in." : ".");

    /// <summary>Change-overs between cylinders that are in a figure; null where there is one cylinder or none.</summary>
    public static string? ChangeOvers(GasResponse gas) => gas.Cylinders < 2 ? null : gas.Cylinders == 2 ? "1 change-over" : $"{gas.Cylinders - 1} change-overs";

    /// <summary>That several cylinders, and the change-overs between them, are in a figure; null where there is one or none.</summary>
    public static string? InTurn(GasResponse gas) => ChangeOvers(gas) is { } changes ? $"{gas.Cylinders} cylinders in turn, {changes} counted in" : null;

    /// <summary>A working as a sentence of its own.</summary>
    public static string Sentence(string working) => $"{char.ToUpperInvariant(working[0])}{working[1..]}.";

    public static string Of(GasBasis? basis) => basis switch
    {
        GasBasis.Trade => "trade",
        GasBasis.RealGas => "real gas",
        GasBasis.Mixed => "mixed, by cylinder",
        _ => "–",
    };

    /// <summary>True where the demand draws the gas from cylinders and none is given.</summary>
    public static bool HasNoCylinder(GasResponse gas) => gas.Minutes is not null && gas.Basis is null;

    /// <summary>Where air ends before the oxygen beside it: the minutes of oxygen in all; null for air, and where the oxygen's own minutes hold.</summary>
    public static OxygenOnceAirEndsResponse? AfterAir(GasSupplyResponse supply, GasResponse gas) => gas.Gas == GasKind.Oxygen ? supply.OxygenOnceAirEnds : null;

    /// <summary>Minutes until a gas is at its end, with oxygen at the full flow once air has ended; null where none is drawn from cylinders.</summary>
    public static long? InAll(GasSupplyResponse supply, GasResponse gas) => AfterAir(supply, gas)?.Minutes ?? gas.Minutes;

    /// <summary>From when the oxygen of a figure flows alone: <c>alone from minute 137</c>; null where it does not.</summary>
    public static string? AloneFrom(GasSupplyResponse supply, GasResponse gas) => AfterAir(supply, gas) is not { } after ? null
        : after.AirMinutes == 0 ? WordTexts.GasAloneStart : WordText.Of(WordTexts.GasAloneFrom, Number(Math.Floor(after.AirMinutes)));

    /// <summary>Every gas that is drawn from cylinders with its minutes: <c>oxygen 196 min (alone from minute 36), air 36 min</c>.</summary>
    public static string All(GasSupplyResponse supply) => string.Join(", ", supply.Gases.Where(gas => gas.Minutes is not null)
        .Select(gas => AloneFrom(supply, gas) is { } alone
            ? WordText.Of(WordTexts.GasMinutesAlone, Of(gas.Gas), InAll(supply, gas), alone)
            : WordText.Of(WordTexts.GasMinutes, Of(gas.Gas), InAll(supply, gas))));

    /// <summary>Which gas ends first, in one sentence; where one of the blend is not there at all, that.</summary>
    public static string Limiting(GasSupplyResponse supply) => supply.LimitingGas switch
    {
        LimitingGas.Air when HasNoCylinder(supply.Gases[1]) && !HasNoCylinder(supply.Gases[0]) =>
            $"No air cylinder is given, so the blend as set cannot be made. Oxygen alone at fraction 1.0: {supply.OxygenAlone.Minutes} min.",
        LimitingGas.Oxygen => $"Oxygen ends first: {supply.Minutes} min.",
        LimitingGas.Air => $"Air ends first: {supply.Minutes} min.",
        LimitingGas.Equal => $"Oxygen and air end together: {supply.Minutes} min.",
        _ => "No cylinder is drawn.",
    };

    /// <summary><c>twice-the-journey</c> as <c>twice the journey</c>.</summary>
    public static string Rule(string rule) => rule == ReserveRule.TwiceTheJourney.Id ? WordTexts.RuleTwice
        : rule == ReserveRule.JourneyPlus30Minutes.Id ? WordTexts.RulePlus30
        : rule.Replace('-', ' ');

    /// <summary>Met, or short by how many minutes, rounded up.</summary>
    public static string Verdict(RuleResponse rule) =>
        rule.Met ? WordTexts.RuleMet : WordText.Of(WordTexts.RuleShort, Math.Ceiling(rule.RequiredMinutes - rule.AvailableMinutes).ToString("0", CultureInfo.InvariantCulture));

    /// <summary>Minutes to a tenth, rounded down; a figure that cannot be computed is unknown, one that is not needed is a dash.</summary>
    public static string Minutes(decimal? minutes, GasResponse gas) =>
        minutes is { } known ? (Math.Floor(known * 10) / 10).ToString("0.0", CultureInfo.InvariantCulture) : gas.Minutes is null ? "–" : "unknown";

    public static string Number(decimal value) => value.ToString("#,0.###", CultureInfo.InvariantCulture);

    public static string Region(string region) => region switch
    {
        "US" => "United States",
        "UK" => "United Kingdom",
        "AU" => "Australia",
        "DE" => "Germany",
        "IN" => "India",
        "site" => "This site",
        _ => "International",
    };

    /// <summary>What the gauges read: <c>Gauges: oxygen US-E 150 bar (2170 psi).</c></summary>
    internal static string Read(IReadOnlyList<CylinderRequest> cylinders, SiteDisplay show) =>
        $"{(cylinders.Count == 1 ? "Gauge" : "Gauges")}: {string.Join(", ", cylinders.Select(cylinder => $"{Of(cylinder.Gas)} {(cylinder.SizeId is { } size ? $"{size} " : "")}{show.Gauge(cylinder.GaugeText)}"))}.";

    /// <summary>When a reading is stale at this site.</summary>
    public static string Stale(ShelfResponse shelf) =>
        $"A reading older than {shelf.StaleMinutes} min is stale{(shelf.StaleMinutesAssumed ? " (assumed, the site did not say)" : "")} and is not counted.";

    /// <summary>What two people found, step by step.</summary>
    public static string Check(FlowCheckResponse check)
    {
        List<string> missing =
        [
            .. check.CapOff ? [] : new[] { "cap not off" }, .. check.ValveOpen ? [] : new[] { "valve not open" },
            .. check.FlowSet ? [] : new[] { "flow not set" }, .. check.FlowFeltAtPatientEnd ? [] : new[] { "no flow felt at the patient end" },
        ];
        return missing.Count == 0 ? "cap off, valve open, flow set, flow felt at the patient end" : string.Join(", ", missing);
    }

    /// <summary><c>O-1, O-2 and A-1</c>; <c>no cylinder</c> for none.</summary>
    public static string List(IReadOnlyList<string> words) => words.Count switch
    {
        0 => "no cylinder",
        1 => words[0],
        _ => $"{string.Join(", ", words.SkipLast(1))} and {words[^1]}",
    };

    /// <summary>A size as one compares it with the label: name, litres, pressure, and how the litres are known where nobody published them.</summary>
    public static string Size(CylinderSize size)
    {
        if (size.Region == "site")
        {
            return $"{size.Id}, this site: {Number(size.LeastLitres)} L at {size.Full}, by its label";
        }

        var litres = size.LeastLitres == size.MostLitres ? Number(size.LeastLitres) : $"{Number(size.LeastLitres)}–{Number(size.MostLitres)}";
        return $"{size.Id}, {Region(size.Region)}: {litres} L at {size.Full}{(size.OtherName is { } other ? $", also {other}" : "")}{(size.Provenance == "memory" ? ", from memory" : "")}";
    }
}
