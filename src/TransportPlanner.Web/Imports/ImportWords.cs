using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Imports;

/// <summary>Closed lists of imports in the words of their pages.</summary>
public static class ImportWords
{
    public static string Of(ImportState state) => state switch
    {
        ImportState.Waiting => "waiting for its file",
        ImportState.Reading => "being read",
        ImportState.Draft => "a draft",
        ImportState.Refused => "refused",
        ImportState.Cancelled => "stopped",
        ImportState.Published => "published",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "No words for this state."),
    };

    public static string Of(ImportFormat format) => format switch
    {
        ImportFormat.Cobie => "COBie workbook",
        ImportFormat.GeoJson => "floor plan GeoJSON",
        ImportFormat.Facts => "table of facts, CSV",
        ImportFormat.Osm => "OpenStreetMap indoor data, XML or GeoJSON",
        ImportFormat.Corrections => "corrections by hand",
        _ => throw new ArgumentOutOfRangeException(nameof(format), format, "No words for this format."),
    };

    public static string Of(PassageKind kind) => kind switch
    {
        PassageKind.LandingDoor => "elevator landing",
        PassageKind.StairFlight => "stairs",
        PassageKind.Opening => "opening",
        _ => "door",
    };

    public static string Of(PlanChangeKind kind) => kind switch
    {
        PlanChangeKind.Added => "added",
        PlanChangeKind.Gone => "gone",
        PlanChangeKind.Renumbered => "renumbered",
        PlanChangeKind.Changed => "changed",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "No words for this change."),
    };
}

/// <summary>The imports that a person still cares for.</summary>
internal static class ImportList
{
    private const int Shown = 100;

    public static Task<List<BuildingImport>> NewestAsync(PlannerContext context, CancellationToken cancellationToken) => context.Imports.AsNoTracking()
        .OrderByDescending(import => import.CreatedAt).ThenBy(import => import.Id).Take(Shown)
        .Select(import => new BuildingImport
        {
            Id = import.Id,
            SiteId = import.SiteId,
            SiteName = import.SiteName,
            TimeZone = import.TimeZone,
            FileName = import.FileName,
            Format = import.Format,
            BroughtBy = import.BroughtBy,
            CreatedAt = import.CreatedAt,
            State = import.State,
            PublishedVersion = import.PublishedVersion,
        }).ToListAsync(cancellationToken);
}
