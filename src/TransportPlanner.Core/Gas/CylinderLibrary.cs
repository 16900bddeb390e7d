using System.Globalization;

namespace TransportPlanner.Core.Gas;

/// <summary>The cylinder sizes that ship with the planner, each with its source.</summary>
public static class CylinderLibrary
{
    /// <summary>How far factor × full pressure may lie from the contents. Source: project input limit IL-13 (common practice).</summary>
    private static readonly Rational Tolerance = 0.10m;

    public static IReadOnlyList<CylinderSize> Sizes { get; } = [.. DataFile.Read("cylinders.csv").Select(Read)];

    /// <summary>
    /// The size of an id, or why there is none. A letter is never enough: one letter means a fourfold difference between countries.
    /// </summary>
    /// <param name="sizeId">As it was typed.</param>
    /// <param name="gas">What the cylinder holds.</param>
    /// <param name="added">Sizes that a site added.</param>
    public static CylinderLookup Find(string sizeId, GasKind gas, IReadOnlyList<CylinderSize>? added = null)
    {
        IReadOnlyList<CylinderSize> sizes = [.. Sizes, .. added ?? []];
        if (sizes.FirstOrDefault(size => size.Id.Equals(sizeId, StringComparison.OrdinalIgnoreCase)) is { } found)
        {
            return found.Gas != gas
                ? new CylinderLookup.OtherGas(found)
                : found.Full is null ? new CylinderLookup.NoPressure(found) : new CylinderLookup.Found(found);
        }

        var called = sizes.Where(size => size.IsCalled(sizeId)).ToList();
        var candidates = called.Where(size => size.Gas == gas).ToList();
        return candidates.Count > 0 ? new CylinderLookup.NoCountry(sizeId, candidates)
            : called.Count > 0 ? new CylinderLookup.OtherGas(called[0])
            : new CylinderLookup.Unknown(sizeId);
    }

    /// <exception cref="FormatException">The row contradicts itself: factor × full pressure is more than 10 % away from the contents.</exception>
    internal static CylinderSize Read(IReadOnlyDictionary<string, string> row)
    {
        var unit = row["fill_pressure_unit"] == "psig" ? PressureUnit.Psi : PressureUnit.Bar;
        var size = new CylinderSize(
            row["id"], row["region"], row["size"], row["alt_name"] is { Length: > 0 } other ? other : null,
            Enum.Parse<GasKind>(row["gas"], ignoreCase: true),
            Number(row["water_capacity_L"]), Pressure(row["fill_pressure_min"], unit), Pressure(row["fill_pressure_max"], unit),
            Number(row["contents_min_L"])!.Value, Number(row["contents_max_L"])!.Value, Number(row["factor_L_per_psi"]),
            row["source"], row["provenance"], row["note"]);

        if (size is { LitresPerPsi: { } factor, Full: { } full })
        {
            var litres = (Rational)factor * full.In(PressureUnit.Psi);
            if (litres < size.LeastLitres * (1 - Tolerance) || litres > size.MostLitres * (1 + Tolerance))
            {
                throw new FormatException(FormattableString.Invariant(
                    $"Cylinder {size.Id}: {factor} L/psi × {full} = {litres.Nearest(0)} L, more than 10 percent away from the contents of {size.LitresText}."));
            }
        }

        return size;
    }

    private static decimal? Number(string text) => text.Length == 0 ? null : decimal.Parse(text, CultureInfo.InvariantCulture);

    private static PressureReading? Pressure(string text, PressureUnit unit) => Number(text) is { } value ? PressureReading.From(value, unit) : null;
}
