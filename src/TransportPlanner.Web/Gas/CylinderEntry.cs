using System.Globalization;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Web.Gas;

/// <summary>One cylinder of a page, as typed. Every pressure is in the unit of the page.</summary>
public sealed class CylinderEntry
{
    /// <summary>Where the page asks for it; alone it makes no cylinder.</summary>
    public GasKind? Gas { get; set; }
    public string? Gauge { get; set; }
    public string? Size { get; set; }
    public string? LitresPerPsi { get; set; }
    public string? WaterLitres { get; set; }
    public string? LabelLitres { get; set; }
    public string? LabelPressure { get; set; }
    public string? Residual { get; set; }

    /// <summary>True where something is typed that stands under <i>other ways to give the capacity</i>.</summary>
    public bool HasOther => new[] { LitresPerPsi, WaterLitres, LabelLitres, LabelPressure, Residual }.Any(typed => !string.IsNullOrWhiteSpace(typed));

    public bool IsEmpty => string.IsNullOrWhiteSpace(Gauge) && string.IsNullOrWhiteSpace(Size) && !HasOther;

    /// <summary>As it would have been typed in <paramref name="unit"/>; a pressure given in another unit is converted, to a ten-thousandth.</summary>
    internal static CylinderEntry Of(CylinderRequest given, string unit)
    {
        string? Pressure(decimal? psi, decimal? bar, decimal? kpa) => (unit switch { "psi" => psi, "bar" => bar, _ => kpa }, psi, bar, kpa) switch
        {
            ({ } asTyped, _, _, _) => Text(asTyped),
            (_, { } p, _, _) => Text(Converted(PressureReading.FromPsi(p).ToGaugePressure())),
            (_, _, { } b, _) => Text(Converted(PressureReading.FromBar(b).ToGaugePressure())),
            (_, _, _, { } k) => Text(Converted(PressureReading.FromKilopascals(k).ToGaugePressure())),
            _ => null,
        };
        decimal Converted(GaugePressure pressure) => decimal.Round((decimal)(unit switch { "psi" => pressure.Psi, "bar" => pressure.Bar, _ => pressure.Kilopascals }), 4);

        return new()
        {
            Gas = given.Gas,
            Gauge = Pressure(given.GaugePsi, given.GaugeBar, given.GaugeKpa),
            Size = given.SizeId,
            LitresPerPsi = Text(given.LitresPerPsi),
            WaterLitres = Text(given.WaterCapacityLitres),
            LabelLitres = Text(given.LabelLitres),
            LabelPressure = Pressure(given.LabelPsi, given.LabelBar, null),
            Residual = Pressure(given.ResidualPsi, given.ResidualBar, given.ResidualKpa),
        };
    }

    /// <summary>True where the same is typed in every field, so that what was given before may stand as it was.</summary>
    internal bool IsSame(CylinderEntry other) => Typed(this).SequenceEqual(Typed(other));

    private static IEnumerable<string> Typed(CylinderEntry entry) =>
        new[] { entry.Gauge, entry.Size, entry.LitresPerPsi, entry.WaterLitres, entry.LabelLitres, entry.LabelPressure, entry.Residual }.Select(typed => typed?.Trim() ?? "");

    private static string? Text(decimal? value) => value?.ToString("0.####", CultureInfo.InvariantCulture);

    /// <summary>One cylinder; null where nothing is typed, or where something is missing or refused.</summary>
    internal static CylinderRequest? Read(string field, string name, GasKind gas, CylinderEntry typed, string unit, CylinderChoice choice, Entries refused, Entries missing)
    {
        if (typed.IsEmpty)
        {
            return null;
        }

        var most = unit switch { "psi" => 3_300m, "bar" => 300m, _ => 30_000m };
        var start = $"{char.ToUpperInvariant(name[0])}{name[1..]}";
        var gauge = refused.Number($"{field}.Gauge", $"{start} gauge", typed.Gauge, 0, most, unit);
        var residual = refused.Number($"{field}.Residual", $"{start} residual", typed.Residual, 0, most, unit);
        var factor = refused.Number($"{field}.LitresPerPsi", $"{start} litres per psi", typed.LitresPerPsi, 0.001m, CylinderCapacity.MaxLitresPerPsi, "L/psi");
        var water = refused.Number($"{field}.WaterLitres", $"{start} water capacity", typed.WaterLitres, 0.1m, CylinderCapacity.MaxWaterLitres, "L");
        var label = refused.Number($"{field}.LabelLitres", $"{start} label litres", typed.LabelLitres, 1, CylinderCapacity.MaxLabelLitres, "L");
        var full = refused.Number($"{field}.LabelPressure", $"{start} label pressure", typed.LabelPressure, 1, most, unit);
        List<string> ways =
        [
            .. new[] { ("the size", typed.Size), ("litres per psi", typed.LitresPerPsi), ("the water capacity", typed.WaterLitres), ("the label", typed.LabelLitres) }
                .Where(way => !string.IsNullOrWhiteSpace(way.Item2)).Select(way => $"{way.Item1} ({way.Item2!.Trim()})"),
        ];
        missing.Need($"{field}.Gauge", !string.IsNullOrWhiteSpace(typed.Gauge), $"the reading of the {name} gauge, in {unit}");
        missing.Need($"{field}.Size", ways.Count > 0 || choice.Preset(gas) is not null, $"the {name} cylinder: its size, or another way to give its capacity");
        missing.Need($"{field}.LabelPressure", string.IsNullOrWhiteSpace(typed.LabelLitres) || !string.IsNullOrWhiteSpace(typed.LabelPressure), $"the pressure on the {name} label, in {unit}");
        missing.Need($"{field}.LabelLitres", string.IsNullOrWhiteSpace(typed.LabelPressure) || !string.IsNullOrWhiteSpace(typed.LabelLitres), $"the litres on the {name} label");
        refused.Need($"{field}.Size", ways.Count < 2, $"{start} cylinder: the capacity is given {ways.Count} times, by {string.Join(" and by ", ways)}. Keep one and empty the rest.");
        if (refused.Problems.Concat(missing.Problems).Any(problem => problem.Field.StartsWith($"{field}.", StringComparison.Ordinal)))
        {
            return null;
        }

        var request = new CylinderRequest
        {
            Gas = gas,
            SizeId = string.IsNullOrWhiteSpace(typed.Size) ? null : typed.Size.Trim(),
            LitresPerPsi = factor,
            WaterCapacityLitres = water,
            LabelLitres = label,
            LabelPsi = unit == "psi" ? full : null,
            LabelBar = unit switch { "bar" => full, "kPa" => full / 100, _ => null },
            GaugePsi = unit == "psi" ? gauge : null,
            GaugeBar = unit == "bar" ? gauge : null,
            GaugeKpa = unit == "kPa" ? gauge : null,
            ResidualPsi = unit == "psi" ? residual : null,
            ResidualBar = unit == "bar" ? residual : null,
            ResidualKpa = unit == "kPa" ? residual : null,
        };
        foreach (var words in request.Validate(new(request)))
        {
            refused.Need($"{field}.Gauge", given: false, $"{start} gauge: {words.ErrorMessage}");
        }

        switch (request.Find(choice))
        {
            case CylinderAnswer.NoSize no:
                refused.Need($"{field}.Size", given: false, $"{start} cylinder: {no}");
                break;
            case CylinderAnswer.Refused no:
                refused.Need($"{field}.Gauge", given: false, $"{start} gauge: {no.Words}");
                break;
        }

        return request;
    }
}
