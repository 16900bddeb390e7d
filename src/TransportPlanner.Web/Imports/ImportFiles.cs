using System.Collections.Immutable;
using System.Text;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Imports;

/// <summary>A file of any format as a draft, within stated limits. What cannot be read is an error in words, never an exception.</summary>
internal static class ImportFiles
{
    public const long MaxFileBytes = 64L << 20;
    public const long MaxOutlineBytes = 16L << 20;

    /// <summary>Longer than this no file is read.</summary>
    public static readonly TimeSpan TimeLimit = TimeSpan.FromMinutes(5);

    /// <summary>What comes as a file.</summary>
    public static IEnumerable<ImportFormat> Formats => Enum.GetValues<ImportFormat>().Where(format => format != ImportFormat.Corrections);

    /// <summary>The draft, or null with the reasons in <paramref name="findings"/>.</summary>
    public static DraftPlan? Read(
        ImportFormat format, string file, string? outlines, DraftHeader header, FloorPlan? inForce, List<Finding> findings, IProgress<string> progress,
        CancellationToken cancellationToken)
    {
        var draft = format switch
        {
            ImportFormat.Cobie => Cobie(file, outlines, header, findings, progress, cancellationToken),
            ImportFormat.GeoJson => GeoJson(file, header, findings),
            ImportFormat.Facts => Facts(file, inForce, findings),
            ImportFormat.Osm => Osm(file, header, findings, progress, cancellationToken),
            _ => throw new ArgumentOutOfRangeException(nameof(format), format, "No reader for this format."),
        };
        cancellationToken.ThrowIfCancellationRequested();
        if (draft is null)
        {
            return null;
        }

        // Only what can be written and read again becomes a draft: a number without text or a point far away ends here, by its place.
        progress.Report("checking the draft");
        var again = FloorPlanGeoJson.Read(FloorPlanGeoJson.Write(draft.Whole));
        if (!again.IsRead)
        {
            findings.AddRange(again.Findings.Select(finding => finding with { Text = $"{finding.Subject}: {finding.Text}" }));
            return null;
        }

        return draft with { Whole = again.Plan };
    }

    private static DraftPlan? Cobie(
        string file, string? outlines, DraftHeader header, List<Finding> findings, IProgress<string> progress, CancellationToken cancellationToken)
    {
        Dictionary<string, Outline>? drawn = null;
        if (outlines is not null)
        {
            progress.Report("reading outlines");
            drawn = OutlineFile.Read(new StringReader(Text(outlines, findings) ?? ""), findings);
        }

        using var stream = File.OpenRead(file);
        if (CobieReader.Read(stream, drawn, findings, progress, cancellationToken) is not { } building)
        {
            return null;
        }

        progress.Report("looking for doors, landings and openings");
        var draft = DraftBuilder.Build(building, header);
        return draft with { FileFindings = [.. findings, .. draft.FileFindings] };
    }

    private static DraftPlan? Osm(string file, DraftHeader header, List<Finding> findings, IProgress<string> progress, CancellationToken cancellationToken)
    {
        if (Text(file, findings) is not { } text || OsmReader.Read(text, header.Name, findings, progress, cancellationToken) is not { } building)
        {
            return null;
        }

        progress.Report("looking for landings and openings");
        var draft = DraftBuilder.Build(building, header);
        return draft with { FileFindings = [.. findings, .. draft.FileFindings] };
    }

    private static DraftPlan? GeoJson(string file, DraftHeader header, List<Finding> findings)
    {
        if (Text(file, findings) is not { } text)
        {
            return null;
        }

        var reading = FloorPlanGeoJson.Read(text);
        if (!reading.IsRead)
        {
            findings.AddRange(reading.Findings.Select(finding => finding with { Text = $"{finding.Subject}: {finding.Text}" }));
            return null;
        }

        if (reading.Plan.SiteId != header.SiteId)
        {
            findings.Add(WorkbookTables.Refused($"The file is of site {reading.Plan.SiteId}, the import of site {header.SiteId}: begin an import for the site of the file."));
            return null;
        }

        return new(reading.Plan with { Version = 0 }, [], []);
    }

    /// <summary>The draft keeps the number of the version that the facts were read onto.</summary>
    private static DraftPlan? Facts(string file, FloorPlan? inForce, List<Finding> findings)
    {
        if (inForce is null)
        {
            findings.Add(WorkbookTables.Refused("The site has no plan that these facts could be about: bring its building first."));
            return null;
        }

        return Text(file, findings) is { } text && FactsFile.Read(text, inForce, findings) is { } plan ? new(plan, [], []) : null;
    }

    /// <summary>UTF-8 or, with its byte order mark, UTF-16; anything else is refused, since a guess would spell names wrong.</summary>
    private static string? Text(string file, List<Finding> findings)
    {
        var bytes = File.ReadAllBytes(file);
        try
        {
            Encoding encoding = bytes is [0xFF, 0xFE, ..] ? new UnicodeEncoding(false, true, true)
                : bytes is [0xFE, 0xFF, ..] ? new UnicodeEncoding(true, true, true)
                : new UTF8Encoding(true, true);
            return encoding.GetString(bytes).TrimStart('\uFEFF');
        }
        catch (ArgumentException)
        {
            findings.Add(WorkbookTables.Refused("The file is no text in UTF-8: save it again with the character set UTF-8 and upload that."));
            return null;
        }
    }
}
