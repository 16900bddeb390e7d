using System.Globalization;
using System.IO.Compression;
using System.Text;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.FloorPlans;
using TransportPlanner.Web.Imports;
using static TransportPlanner.Web.Tests.Imports.ImportFlow;

namespace TransportPlanner.Web.Tests.Imports;

/// <summary>
/// Good files with bytes, numbers and lines spoiled at random, from printed seeds: every reader answers with a draft or with findings. What becomes a
/// draft can be reviewed with all its joins, and where no error is found a graph can be made of it.
/// </summary>
public sealed class FuzzTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const int Rounds = 150;

    /// <summary>Far above what any of these small files needs: reached only by a reader that does not end.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private static readonly string[] Odd =
    [
        "", "0", "-1", "1e308", "-1e308", "1e-308", "NaN", "Infinity", "99999999999999999999", "2026-02-30", "null", "true", "[]", "{}", "\"", "'", "<", "&", "&#0;", "\u0000", "\ufffe",
        "=1+1", ";", "|", "\\", "POLYGON ((0 0))", "..", "%2F", "\ud83d\ude80", "\u202e",
    ];

    private static readonly FloorPlan Plan = FloorPlanGeoJson.Read(FloorPlanExamples.Plan).Plan!;

    private static byte[] Good(ImportFormat format, int round) => format switch
    {
        ImportFormat.GeoJson => Encoding.UTF8.GetBytes(FloorPlanExamples.Plan),
        ImportFormat.Facts => Encoding.UTF8.GetBytes(FactsFile.Write(Plan)),
        ImportFormat.Osm => round % 2 == 0 ? OsmBuilding.Xml() : OsmBuilding.GeoJson(),
        ImportFormat.Cobie => WorkbookFile.Write(SmallBuilding.Sheets()).ToArray(),
        _ => throw new ArgumentOutOfRangeException(nameof(format), format, "No such file."),
    };

    [Theory]
    [InlineData(ImportFormat.GeoJson)]
    [InlineData(ImportFormat.Facts)]
    [InlineData(ImportFormat.Osm)]
    [InlineData(ImportFormat.Cobie)]
    internal async Task A_spoiled_file_is_a_draft_or_findings_and_never_a_fault(ImportFormat format)
    {
        var file = Path.GetTempFileName();
        var (drafts, refused) = (0, 0);
        try
        {
            for (var seed = 1; seed <= Rounds; seed++)
            {
                await File.WriteAllBytesAsync(file, Spoiled(format, seed), TestContext.Current.CancellationToken);
                using var patience = new CancellationTokenSource(Patience);
                try
                {
                    // On a thread of its own: a reader that loops without asking for the token must not hold the whole run.
                    var ended = await Task.Run(() => Read(format, file, patience.Token), CancellationToken.None).WaitAsync(Patience + Patience, CancellationToken.None);
                    (drafts, refused) = ended ? (drafts + 1, refused) : (drafts, refused + 1);
                }
                catch (Exception e)
                {
                    Assert.Fail($"{format}, seed {seed}: {e}");
                }
            }
        }
        finally
        {
            File.Delete(file);
        }

        // A mutation that never spoils, or always destroys, would test nothing.
        Assert.True(drafts > 0 && refused > 0, $"{format}: {drafts} drafts, {refused} refused");
    }

    [Theory]
    [InlineData("geoJson", ImportFormat.GeoJson)]
    [InlineData("osm", ImportFormat.Osm)]
    [InlineData("cobie", ImportFormat.Cobie)]
    internal async Task A_spoiled_file_that_is_brought_leaves_the_plans_in_force_as_they_are(string name, ImportFormat format)
    {
        using var client = application.CreateClient();
        var before = await client.GetStringAsync("/api/v1/sites");
        for (var seed = 1_001; seed <= 1_010; seed++)
        {
            var import = await ReadAsync(client, await BringAsync(client, "spoiled", name, Spoiled(format, seed)));

            Assert.Contains($"{import["import"]!["state"]}", new[] { "draft", "refused" });
            Assert.DoesNotContain(import["findings"]!.AsArray(), finding => $"{finding!["text"]}".Contains("fault of its own", StringComparison.Ordinal));
        }

        Assert.Equal(before, await client.GetStringAsync("/api/v1/sites"));
    }

    /// <summary>True where a draft came of it, false where findings say why none did.</summary>
    private static bool Read(ImportFormat format, string file, CancellationToken cancellationToken)
    {
        var findings = new List<Finding>();
        var draft = ImportFiles.Read(format, file, null, new("demonstration", "Spoiled (invented)", "Etc/UTC", null), Plan, findings, new Progress<string>(), cancellationToken);
        if (draft is null)
        {
            Assert.NotEmpty(findings);
            return false;
        }

        string[] joins = [.. draft.Joins.Select(join => join.Id)];
        var review = draft.Review(joins);
        if (review.All(finding => finding.Severity != FindingSeverity.Error))
        {
            Assert.Equal(draft.With(joins).Places.Length, FloorGraphBuilder.Build(draft.With(joins)).PlaceCount);
        }

        return true;
    }

    private static byte[] Spoiled(ImportFormat format, int seed)
    {
        var random = new Random(seed);
        var good = Good(format, seed);
        return format != ImportFormat.Cobie || seed % 5 == 0 ? Spoil(good, random, isText: format != ImportFormat.Cobie) : Inside(good, random);
    }

    /// <summary>One part of the archive spoiled, so that the reader gets past the zip file.</summary>
    private static byte[] Inside(byte[] archive, Random random)
    {
        using var spoiled = new MemoryStream();
        using (var from = new ZipArchive(new MemoryStream(archive)))
        using (var to = new ZipArchive(spoiled, ZipArchiveMode.Create, leaveOpen: true))
        {
            var sheets = from.Entries.Where(entry => entry.FullName.Contains("worksheets", StringComparison.Ordinal)).ToList();
            var chosen = random.Next(4) == 0 ? from.Entries[random.Next(from.Entries.Count)] : sheets[random.Next(sheets.Count)];
            foreach (var entry in from.Entries)
            {
                using var part = new MemoryStream();
                using (var read = entry.Open())
                {
                    read.CopyTo(part);
                }

                using var write = to.CreateEntry(entry.FullName).Open();
                write.Write(entry == chosen ? Spoil(part.ToArray(), random, isText: true) : part.ToArray());
            }
        }

        return spoiled.ToArray();
    }

    private static byte[] Spoil(byte[] file, Random random, bool isText)
    {
        for (var times = 1 + random.Next(3); times > 0; times--)
        {
            file = file.Length == 0 ? file : isText && random.Next(3) > 0 ? Figure(file, random) : Bytes(file, random);
        }

        return file;
    }

    /// <summary>A number, a word or a whole line of the text becomes something odd, goes, or comes twice.</summary>
    private static byte[] Figure(byte[] file, Random random)
    {
        var text = Encoding.UTF8.GetString(file);
        bool IsPart(char c, bool number) => number ? char.IsAsciiDigit(c) || c is '.' or '-' : char.IsLetter(c);
        var number = random.Next(2) == 0;
        var at = random.Next(text.Length);
        var start = text.AsSpan(at).IndexOfAnyInRange(number ? '0' : 'A', number ? '9' : 'z') + at;
        if (start < at)
        {
            return Bytes(file, random);
        }

        var end = start;
        while (end < text.Length && IsPart(text[end], number))
        {
            end++;
        }

        var part = text[start..end];
        var odd = random.Next(5) switch
        {
            0 => part + part,
            1 => (random.NextDouble() * Math.Pow(10, random.Next(-3, 9))).ToString("R", CultureInfo.InvariantCulture),
            2 => new string(part.Length > 0 ? part[0] : 'x', 1 + random.Next(5_000)),
            _ => Odd[random.Next(Odd.Length)],
        };
        return Encoding.UTF8.GetBytes(text[..start] + odd + text[end..]);
    }

    private static byte[] Bytes(byte[] file, Random random)
    {
        var (from, count) = (random.Next(file.Length), 1 + random.Next(40));
        var to = Math.Min(file.Length, from + count);
        var noise = new byte[count];
        random.NextBytes(noise);
        return random.Next(5) switch
        {
            0 => [.. file[..from], .. file[to..]],
            1 => [.. file[..to], .. file[from..]],
            2 => [.. file[..from], .. noise, .. file[from..]],
            3 => [.. file[..from], .. noise, .. file[to..]],
            _ => file[..from],
        };
    }
}
