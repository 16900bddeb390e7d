using System.Globalization;
using System.Text;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Tests.Reference;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.Gas;

/// <summary>
/// Whole answers at the edges of the model, kept word by word in <c>gas-answers.txt</c>. The figures are checked elsewhere against references; here each working is
/// recomputed from its own numbers, and nothing changes unseen: which caution is said from where on, where a cylinder is changed, how a sum is written.
/// </summary>
public sealed class GasAnswersTests
{
    private static readonly JourneyStretch[] ByElevator =
    [
        new("room", 1, ChangeOverPlace.Best), new("corridor 2", 4, ChangeOverPlace.Possible), new("alcove", 0, ChangeOverPlace.Best),
        new("elevator C1", 3, ChangeOverPlace.Impossible, IsElevator: true), new("corridor 4", 6, ChangeOverPlace.Possible), new("doorway", 0.5m, ChangeOverPlace.Impossible),
    ];

    private static IEnumerable<(string Name, GasRequest Request)> Requests()
    {
        var pure = Gases.Demand(10, 1);
        var blend = Gases.Demand(8, 0.30m);
        // Cautions of the flow and the fraction, on both sides of each edge.
        foreach (var flow in new[] { 0.49m, 0.5m, 4.99m, 5m, 5.01m, 15m, 15.01m })
            yield return ($"oxygen alone at {flow} L/min", Of(Gases.Demand(flow, 1), Gases.Psi(GasKind.Oxygen, 0.28m, 1900)) with { JourneyMinutes = 20 });
        foreach (var fraction in new decimal?[] { null, 0.21m, 0.2101m, 0.605m, 0.9999m })
            yield return ($"fraction {fraction?.ToString(CultureInfo.InvariantCulture) ?? "not known"}", Of(Gases.Demand(10, fraction), Gases.Psi(GasKind.Oxygen, 0.28m, 1900), Gases.Psi(GasKind.Air, 0.28m, 1900)) with { JourneyMinutes = 20 });
        yield return ("bleed and drive by oxygen", Of(blend with { Bleed = Gases.Flow(1.5m), DriveFlow = Gases.Flow(2) }, Gases.Holding(GasKind.Oxygen, 300), Gases.Holding(GasKind.Air, 300)) with { JourneyMinutes = 25 });
        yield return ("drive by air, which ends first", Of(blend with { DriveFlow = Gases.Flow(2), DriveGas = GasKind.Air }, Gases.Holding(GasKind.Oxygen, 300), Gases.Holding(GasKind.Air, 100)) with { JourneyMinutes = 25 });
        yield return ("drive by air, oxygen ends first", Of(blend with { DriveFlow = Gases.Flow(2), DriveGas = GasKind.Air }, Gases.Holding(GasKind.Oxygen, 10), Gases.Holding(GasKind.Air, 400)) with { JourneyMinutes = 25 });
        yield return ("drive by oxygen, which ends first", Of(blend with { DriveFlow = Gases.Flow(0.5m) }, Gases.Holding(GasKind.Oxygen, 20), Gases.Holding(GasKind.Air, 400)) with { JourneyMinutes = 25 });
        yield return ("air from a compressor", Of(blend with { AirSource = AirSource.Compressor }, Gases.Holding(GasKind.Oxygen, 300), Gases.Holding(GasKind.Air, 300)) with { JourneyMinutes = 25 });
        yield return ("air from the room", Of(blend with { AirSource = AirSource.Entrained }, Gases.Holding(GasKind.Oxygen, 300)) with { JourneyMinutes = 25 });
        yield return ("no cylinder", Of(blend) with { JourneyMinutes = 25 });
        yield return ("no oxygen cylinder, and none is drawn", Of(Gases.Demand(8, 0.21m), Gases.Holding(GasKind.Air, 300)) with { JourneyMinutes = 25 });
        yield return ("an air cylinder at pure oxygen", Of(pure, Gases.Holding(GasKind.Oxygen, 300), Gases.Holding(GasKind.Air, 300)) with { JourneyMinutes = 25 });
        yield return ("no air cylinder, and air is drawn", Of(blend, Gases.Holding(GasKind.Oxygen, 300)) with { JourneyMinutes = 25 });
        // At fraction 0.605 both gases flow equally.
        yield return ("fraction not known, with bleed", Of(Gases.Demand(8, null) with { Bleed = Gases.Flow(1.5m) }, Gases.Holding(GasKind.Oxygen, 300)) with { JourneyMinutes = 25 });
        yield return ("fraction not known, with drive", Of(Gases.Demand(8, null) with { DriveFlow = Gases.Flow(2) }, Gases.Holding(GasKind.Oxygen, 300)) with { JourneyMinutes = 25 });
        yield return ("both end together", Of(Gases.Demand(10, 0.605m), Gases.Holding(GasKind.Oxygen, 200), Gases.Holding(GasKind.Air, 200)) with { JourneyMinutes = 25 });
        yield return ("oxygen ends first", Of(Gases.Demand(10, 0.605m), Gases.Holding(GasKind.Oxygen, 100), Gases.Holding(GasKind.Air, 200)) with { JourneyMinutes = 25 });

        // Cautions of a cylinder.
        foreach (var (name, cylinders) in Shelves())
            yield return (name, Of(pure, cylinders) with { JourneyMinutes = 20 });
        foreach (var celsius in new decimal?[] { null, -20, 20, 30, 30.1m, 50 })
            yield return ($"water capacity at {celsius?.ToString(CultureInfo.InvariantCulture) ?? "an assumed temperature"}", Of(blend, Gases.Water(GasKind.Oxygen, 2, 200), Gases.Water(GasKind.Air, 2, 200)) with { CylinderCelsius = celsius, JourneyMinutes = 20 });

        // Changed over along a way.
        yield return ("one cylinder by elevator", Of(pure, Gases.Holding(GasKind.Oxygen, 200)) with { Timeline = ByElevator });
        yield return ("changed at the alcove", Of(pure, Gases.Holding(GasKind.Oxygen, 100), Gases.Holding(GasKind.Oxygen, 150)) with { Timeline = ByElevator });
        yield return ("changed in the corridor", Of(pure, Gases.Holding(GasKind.Oxygen, 100), Gases.Holding(GasKind.Oxygen, 100), Gases.Holding(GasKind.Oxygen, 30)) with { Timeline = ByElevator });
        yield return ("changed before leaving", Of(pure, Gases.Holding(GasKind.Oxygen, 10), Gases.Holding(GasKind.Oxygen, 90), Gases.Holding(GasKind.Oxygen, 120)) with { Timeline = ByElevator });
        yield return ("none lasts", Of(pure, Gases.Holding(GasKind.Oxygen, 20), Gases.Holding(GasKind.Oxygen, 25)) with { Timeline = ByElevator });
        yield return ("both gases changed over", Of(Gases.Demand(10, 0.605m), Gases.Holding(GasKind.Oxygen, 60), Gases.Holding(GasKind.Air, 55), Gases.Holding(GasKind.Oxygen, 100), Gases.Holding(GasKind.Air, 60)) with { Timeline = ByElevator });
        yield return ("air ends under way and oxygen is changed sooner", Of(Gases.Demand(10, 0.605m), Gases.Holding(GasKind.Oxygen, 70), Gases.Holding(GasKind.Oxygen, 100), Gases.Holding(GasKind.Air, 30)) with { Timeline = ByElevator });
        yield return ("oxygen ends under way", Of(Gases.Demand(10, 0.605m), Gases.Holding(GasKind.Oxygen, 30), Gases.Holding(GasKind.Air, 200)) with { Timeline = ByElevator });

        yield return ("air ended before the elevator", Of(Gases.Demand(10, 0.605m), Gases.Holding(GasKind.Oxygen, 200), Gases.Holding(GasKind.Air, 10)) with { Timeline = ByElevator });
        yield return ("air ends on reaching the elevator", Of(Gases.Demand(10, 0.605m), Gases.Holding(GasKind.Oxygen, 200), Gases.Holding(GasKind.Air, 25)) with { Timeline = ByElevator });
        yield return ("air may have ended before the elevator", Of(Gases.Demand(10, 0.605m), Gases.Holding(GasKind.Oxygen, 200), Gases.Holding(GasKind.Air, 27)) with { Timeline = ByElevator });
        yield return ("air is the lesser in the elevator", Of(blend, Gases.Holding(GasKind.Oxygen, 300), Gases.Holding(GasKind.Air, 100)) with { Timeline = ByElevator });

        ReserveRule[] rules = [new("floor", "site", [new(0, 45)]), new("half again", "site", [new(1.5m, 0)]), new("twice and ten", "site", [new(2, 10), new(1, 15)]), new("plus", "site", [new(1, 12.5m)])];
        yield return ("rules of a site", Of(pure, Gases.Holding(GasKind.Oxygen, 450)) with { JourneyMinutes = 12.5m, Rules = rules });
    }

    private static IEnumerable<(string Name, Cylinder[] Cylinders)> Shelves()
    {
        var e = Size("US-E", GasKind.Oxygen);
        var cd = Size("UK-CD", GasKind.Oxygen);
        Cylinder At(CylinderCapacity capacity, PressureReading gauge, PressureReading? residual = null) => new(GasKind.Oxygen, capacity, gauge, residual);
        foreach (var psi in new[] { 200, 201, 549, 550, 2200 })
            yield return ($"US-E at {psi} psi", [At(e, PressureReading.FromPsi(psi))]);
        yield return ("two of one size, one with a residual", [At(e, PressureReading.FromPsi(1900)), At(e, PressureReading.FromPsi(1800), PressureReading.FromPsi(150))]);
        yield return ("two sizes", [At(e, PressureReading.FromPsi(1900)), At(cd, PressureReading.FromBar(150))]);
        yield return ("the preset size", [At(e, PressureReading.FromPsi(1900)) with { SizeIsAssumed = true }]);
        yield return ("psi on a cylinder known in bar", [At(cd, PressureReading.FromPsi(150))]);
        yield return ("psi on a cylinder known in bar, well filled", [At(cd, PressureReading.FromPsi(1900))]);
        yield return ("bar on a cylinder known in psi", [At(e, PressureReading.FromBar(14)), At(e, PressureReading.FromBar(20))]);
        yield return ("kPa", [At(cd, PressureReading.FromKilopascals(15_000)), At(cd, PressureReading.FromKilopascals(1_400)), At(cd, PressureReading.FromKilopascals(150))]);
        foreach (var residual in new[] { PressureReading.FromPsi(199), PressureReading.FromPsi(200), PressureReading.FromBar(9.9m), PressureReading.FromBar(10), PressureReading.FromKilopascals(999), PressureReading.FromKilopascals(1_000) })
            yield return ($"residual {residual}", [At(e, PressureReading.FromPsi(1900), residual)]);
        foreach (var water in new[] { 15m, 15.001m, 15.6m })
            yield return ($"{water} L of water", [Gases.Water(GasKind.Oxygen, water, 100)]);
        yield return ("a label with a digit too many", [At(CylinderCapacity.FromLabel(6160, PressureReading.FromPsi(2200)), PressureReading.FromPsi(1900), PressureReading.FromPsi(200))]);
        yield return ("a residual in another unit", [At(e, PressureReading.FromPsi(1900), PressureReading.FromBar(14))]);
        yield return ("large cylinders as listed", [At(Size("US-M", GasKind.Oxygen), PressureReading.FromPsi(1900)), At(Size("UK-G", GasKind.Oxygen), PressureReading.FromBar(100))]);
        yield return ("trade and real gas", [Gases.Water(GasKind.Oxygen, 2, 150), Gases.Psi(GasKind.Oxygen, 0.28m, 1500)]);
    }

    [Fact]
    public void Answers_at_the_edges_stay_as_they_are_and_every_working_recomputes()
    {
        var text = new StringBuilder("Gas answers at the edges of the model. Invented cylinders and journeys; see GasAnswersTests.\n");
        foreach (var (name, request) in Requests())
            Write(text, name, request);
        WriteLeast(text);
        WriteLookups(text);

        foreach (var line in text.ToString().Split('\n').Where(line => line.StartsWith("  ", StringComparison.Ordinal)))
            WorkingReader.Recompute(line);
        Golden.AssertEqual("Gas/gas-answers.txt", text.ToString());
    }

    private static GasRequest Of(GasDemand demand, params Cylinder[] cylinders) => new() { Demand = demand, Cylinders = cylinders };

    private static CylinderCapacity Size(string id, GasKind gas) => CylinderCapacity.FromSize(Assert.IsType<CylinderLookup.Found>(CylinderLibrary.Find(id, gas)).Size);

    private static void Write(StringBuilder text, string name, GasRequest request)
    {
        void Line(FormattableString words) => text.Append(words.ToString(CultureInfo.InvariantCulture)).Append('\n');
        var supply = GasSupply.For(request);
        Line($"\n== {name}");
        foreach (var gas in supply.Gases)
        {
            Line($"{gas.Gas} {gas.Flow.LitresPerMinute:0.######} L/min from {gas.Cylinders}: {gas.UsableLitres} L, trade {gas.TradeMinutes}, real {gas.RealGasMinutes}, {gas.Basis}; {gas.ExactMinutes} {gas.Minutes} low {gas.MinutesLow}");
            Line($"  {gas.FlowWorking}");
            Line($"  {gas.Working}");
            Line($"  {gas.WorkingLow}");
        }

        Line($"first {supply.Limiting} {supply.ExactMinutes} {supply.Minutes}, available {supply.AvailableMinutes}, {supply.CylinderCelsius} °C");
        Line($"alone {supply.OxygenAlone.LitresPerMinute} L/min {supply.OxygenAlone.ExactMinutes} {supply.OxygenAlone.Minutes}");
        Line($"  {supply.OxygenAlone.Working}");
        if (supply.OxygenOnceAirEnds is { } once)
        {
            Line($"once air ends {once.AirMinutes} {once.ExactMinutes} {once.Minutes} low {once.MinutesLow}");
            Line($"  {once.Working}");
        }

        foreach (var rule in supply.Rules)
            Line($"rule {rule.Rule.Id} {rule.RequiredMinutes} {rule.AvailableMinutes} {rule.Met}\n  {rule.Working}");
        foreach (var caution in supply.Cautions)
            Line($"! {caution}");
        if (request.Timeline.Count == 0 && request.Cylinders.Count < 2)
            return;
        WriteTimeline(Line, supply.Timeline!);
        foreach (var more in OneMoreCylinder.For(request))
            Line($"one more {more.Gas} like {more.Like}: {more.Minutes}, alone {more.OxygenAloneMinutes}, {string.Join(" ", more.Rules.Select(rule => rule.Met))}");
        switch (ShelfSet.Smallest(request))
        {
            case ShelfSet.Found found:
                Line($"smallest set {string.Join(", ", found.Places)}: {found.Supply.Minutes}");
                break;
            case ShelfSet.TooLittle no:
                Line($"too little {no.Gas}: {no.NeededLitres} of {no.ThereLitres}\n  {no.Working}");
                break;
        }

        var seconds = (int)(supply.Timeline!.JourneyMinutes * 60);
        var chances = new double[seconds + 121];
        (chances[seconds - 60], chances[seconds], chances[seconds + 120]) = (0.25, 0.5, 0.25);
        foreach (var shortfall in Shortfall.Of(supply, chances))
            Line($"short {shortfall.Supply}: {shortfall.Chance:0.000000} {shortfall.Frequency}; {shortfall.LeastMinutes} {shortfall.LikelyMinutes} {shortfall.MostMinutes}");
    }

    private static void WriteTimeline(Action<FormattableString> line, GasTimeline timeline)
    {
        line($"journey {timeline.JourneyMinutes}");
        foreach (var gas in timeline.Gases)
        {
            line($"{gas.Gas} ends {gas.EndsAtMinute} low {gas.EndsAtMinuteLow} lasts {gas.LastsTheJourney}");
            foreach (var use in gas.Cylinders)
                line($"- {use.Number}: {use.FromMinute} to {use.UntilMinute}, empty {use.EmptyAtMinute} low {use.EmptyAtMinuteLow}: {FormattableString.Invariant($"{string.Join(", ", use.Contents.Select(at => FormattableString.Invariant($"{at.Litres} at {at.Minute}")))}")}");
        }

        foreach (var change in timeline.ChangeOvers)
            line($"change {change.Gas} {change.From} to {change.To} at {change.AtMinute} {change.Where} {change.Place}: {change.Working}");
        foreach (var stall in timeline.Stalls)
            line($"stall {stall.Where} at {stall.AtMinute}: {stall.Minutes} low {stall.MinutesLow} with reserve {stall.MinutesWithReserve}\n  {stall.Working}");
        foreach (var happens in timeline.Events)
            line($"event {happens}");
    }

    private static void WriteLeast(StringBuilder text)
    {
        string[] ids = ["US-E", "US-D", "US-M", "US-M24", "UK-CD", "UK-E", "AU-C", "US-E-AIR", "AU-E"];
        (GasKind Gas, GasDemand Demand, ReserveRule Rule, decimal Journey, decimal Celsius)[] asked =
        [
            (GasKind.Oxygen, Gases.Demand(8, 0.4m), ReserveRule.TwiceTheJourney, 9, 20), (GasKind.Oxygen, Gases.Demand(8, 0.4m), ReserveRule.JourneyPlus30Minutes, 9.1m, 35),
            (GasKind.Air, Gases.Demand(8, 0.4m), ReserveRule.JourneyPlus30Minutes, 9, 20), (GasKind.Air, Gases.Demand(8, 1), ReserveRule.JourneyPlus30Minutes, 9, 20),
            (GasKind.Air, Gases.Demand(8, 0.4m) with { AirSource = AirSource.Compressor }, ReserveRule.JourneyPlus30Minutes, 9, 20),
        ];
        foreach (var (gas, demand, rule, journey, celsius) in asked)
        {
            text.Append(CultureInfo.InvariantCulture, $"\n== least gauge of {gas} by {rule.Id} for {journey} min at {celsius} °C{(demand.AirSource == AirSource.Cylinder ? "" : ", no air cylinder")}\n");
            foreach (var least in LeastGauge.ForAll(gas, demand, rule, journey, celsius).Where(least => ids.Contains(least.Size.Id)))
                text.Append(CultureInfo.InvariantCulture, $"{least.Size.Id} {least.Gauge?.ToString() ?? "no gauge"}\n  {least.Working}\n  {least.Steps}\n");
        }
    }

    private static void WriteLookups(StringBuilder text)
    {
        text.Append("\n== looked up\n");
        foreach (var (id, gas) in new[] { ("US-E", GasKind.Oxygen), ("us-e", GasKind.Air), ("E", GasKind.Oxygen), ("E", GasKind.Air), ("CD", GasKind.Oxygen), ("M24", GasKind.Oxygen), ("M24", GasKind.Air), ("M15", GasKind.Oxygen), ("Jumbo", GasKind.Oxygen), ("AU-E", GasKind.Oxygen), ("Q", GasKind.Oxygen) })
            text.Append(CultureInfo.InvariantCulture, $"{id} {gas}: {(CylinderLibrary.Find(id, gas) is CylinderLookup.Found found ? $"found {found.Size.Id}" : $"{CylinderLibrary.Find(id, gas)}")}\n");
        foreach (var size in CylinderLibrary.Sizes)
            text.Append(CultureInfo.InvariantCulture, $"{size.LitresText} {size.Gas} called {size.Size} {size.OtherName}, water {size.WaterLitres}, full {size.LeastFull} to {size.Full}, {size.LitresPerPsi} L/psi, {size.Provenance}\n");
        foreach (var unit in Enum.GetValues<PressureUnit>())
            foreach (var reading in new[] { PressureReading.FromPsi(1994), PressureReading.FromBar(137), PressureReading.FromKilopascals(13_789) })
                text.Append(CultureInfo.InvariantCulture, $"{reading} is {reading.DownToMark(unit)} to {reading.UpToMark(unit)} {PressureReading.NameOf(unit)}\n");
    }
}
