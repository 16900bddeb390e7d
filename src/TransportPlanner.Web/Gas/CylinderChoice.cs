using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Gas;

/// <summary>What a cylinder of a request may be: the sizes of the library, and the size that the site presets where none is given.</summary>
internal sealed record CylinderChoice(string? PresetOxygen, string? PresetAir)
{
    /// <summary>Without a site: the library alone.</summary>
    public static CylinderChoice Library { get; } = new(null, null);

    public static async Task<CylinderChoice> ReadAsync(PlannerContext context, string siteId, CancellationToken cancellationToken)
    {
        var settings = await SiteSettings.ReadAsync(context, siteId, cancellationToken);
        var added = await AddedCylinderSize.OfSiteAsync(context, siteId, cancellationToken);
        return new(settings.Get(SiteSettings.PresetOxygenCylinder), settings.Get(SiteSettings.PresetAirCylinder))
        {
            Added = [.. added.Where(size => size.ConfirmedBy is not null).Select(size => size.ToSize().ToSize())],
            NotConfirmed = [.. added.Where(size => size.ConfirmedBy is null).Select(size => size.Id)],
        };
    }

    public string? Preset(GasKind gas) => gas == GasKind.Oxygen ? PresetOxygen : PresetAir;

    /// <summary>Sizes that the site added to the library.</summary>
    public IReadOnlyList<CylinderSize> Added { get; init; } = [];

    /// <summary>Sizes that wait for their second entry.</summary>
    public IReadOnlyList<string> NotConfirmed { get; init; } = [];

    /// <summary>Every size of a gas that a reading can be counted from, the site's own first.</summary>
    public IEnumerable<CylinderSize> Sizes(GasKind gas) => Added.Concat(CylinderLibrary.Sizes).Where(size => size.Gas == gas && size.Full is not null);

    public CylinderLookup Find(string sizeId, GasKind gas) => NotConfirmed.Contains(sizeId, StringComparer.OrdinalIgnoreCase)
        ? new CylinderLookup.NotConfirmed(sizeId)
        : CylinderLibrary.Find(sizeId, gas, Added);
}

/// <summary>The cylinder that a request means, or why there is none.</summary>
internal abstract record CylinderAnswer
{
    private CylinderAnswer()
    {
    }

    public sealed record Found(Cylinder Cylinder) : CylinderAnswer;

    /// <summary>A member of the request is missing, or cannot belong to this cylinder.</summary>
    public sealed record Refused(string Member, string Words) : CylinderAnswer;

    /// <summary>The library has no such size, or not for this gas.</summary>
    public sealed record NoSize(CylinderLookup Lookup, bool IsPreset) : CylinderAnswer
    {
        public override string ToString() => IsPreset ? $"The cylinder that the site presets cannot be used. {Lookup}" : $"{Lookup}";
    }
}
