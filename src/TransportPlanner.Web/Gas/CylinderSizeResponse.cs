using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Gas;

/// <summary>What is published about one cylinder size. The label on the cylinder decides.</summary>
/// <param name="SizeId">What a request gives: country, letter and, for air, the gas.</param>
/// <param name="Region">US, UK, AU, DE, IN, INT for international, or site for a size that a site added.</param>
/// <param name="Size">Letter or number used there.</param>
/// <param name="OtherName">Another name in use.</param>
/// <param name="Gas">The gas that the litres are published for.</param>
/// <param name="WaterCapacityLitres">L of water; null where unknown: no real-gas figure then.</param>
/// <param name="FullPsi">Highest published pressure of a full cylinder where it is published in psi.</param>
/// <param name="FullBar">The same where it is published in bar. Without either the size cannot be used with a gauge.</param>
/// <param name="LitresMin">Lowest published contents, L of free gas: these are counted. Null in the list while a site's size waits for its second entry.</param>
/// <param name="LitresMax">Highest published contents, L.</param>
/// <param name="LitresPerPsi">Published trade factor.</param>
/// <param name="Source">Where it was read.</param>
/// <param name="Provenance">How it is known: published, quoted, memory, derived.</param>
/// <param name="Note">Limits and conflicts.</param>
public sealed record CylinderSizeResponse(
    string SizeId, string Region, string Size, string? OtherName, GasKind Gas, decimal? WaterCapacityLitres, decimal? FullPsi, decimal? FullBar,
    decimal? LitresMin, decimal? LitresMax, decimal? LitresPerPsi, string Source, string Provenance, string? Note)
{
    /// <summary>Whether it ships with the planner or was added by a site, and then whether it was confirmed.</summary>
    public CylinderSizeStatus Status { get; init; }

    /// <summary>Who entered it; null for what ships with the planner.</summary>
    public CylinderSizeEntryResponse? Entry { get; init; }

    internal static CylinderSizeResponse From(AddedCylinderSize row) => From(row.ToSize().ToSize()) with
    {
        Status = row.ConfirmedBy is null ? CylinderSizeStatus.Entered : CylinderSizeStatus.Confirmed,
        Entry = new(row.SiteId, row.EnteredBy, row.EnteredAt, row.ConfirmedBy, row.ConfirmedAt, row.ToSize().TestWorking, row.Version),
    };

    /// <summary>For the list: while a size waits, the role that confirms it must read the label and not the first entry.</summary>
    internal static CylinderSizeResponse Listed(AddedCylinderSize row) => From(row) is var size && row.ConfirmedBy is not null ? size : size with
    {
        WaterCapacityLitres = null,
        FullPsi = null,
        FullBar = null,
        LitresMin = null,
        LitresMax = null,
        Entry = size.Entry! with { TestWorking = null },
    };

    internal static CylinderSizeResponse From(CylinderSize size) => new(
        size.Id, size.Region, size.Size, size.OtherName, size.Gas, size.WaterLitres, In(size.Full, PressureUnit.Psi), In(size.Full, PressureUnit.Bar),
        size.LeastLitres, size.MostLitres, size.LitresPerPsi, size.Source, size.Provenance, size.Note.Length == 0 ? null : size.Note);

    private static decimal? In(PressureReading? full, PressureUnit unit) => full is { } reading && reading.Unit == unit ? reading.Value : null;
}
