using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Gas;

/// <summary>Why something about a cylinder of the shelf is refused.</summary>
internal enum ShelfProblemCode
{
    /// <summary>Another cylinder with this tag stands on the shelf.</summary>
    TagTaken,
    /// <summary>The reading lies in the future, or before the one that is there.</summary>
    ReadingTime,
}

/// <summary>The shelf of one site as it stands now. The page and the API read and change it through this.</summary>
internal sealed class Shelf
{
    /// <summary>So many checks are shown; the others stay in the database.</summary>
    private const int ChecksShown = 4;

    private static readonly JsonSerializerOptions Json = MakeJson();

    private readonly SiteSettings _settings;
    private readonly CylinderChoice _choice;
    private readonly List<(ShelfCylinder Row, CylinderRequest Given, CylinderAnswer Answer)> _cylinders;
    private readonly ILookup<string, FlowCheck> _checks;
    private readonly DateTimeOffset _now;

    private Shelf(SiteSettings settings, CylinderChoice choice, IEnumerable<ShelfCylinder> rows, IEnumerable<FlowCheck> checks, DateTimeOffset now)
    {
        (_settings, _choice, _now) = (settings, choice, now);
        _cylinders = [.. rows.Select(row => (row, GivenOf(row))).Select(pair => (pair.row, pair.Item2, pair.Item2.Find(choice)))];
        _checks = checks.OrderByDescending(check => check.At).ToLookup(check => check.CylinderId);
    }

    public static IReadOnlyList<string> Cautions { get; } =
    [
        "Full is not flowing: cap off, valve open, flow set, flow felt at the patient end; two people, twice: when it is fitted and before leaving.",
        "The label on the cylinder decides. A reading is what somebody saw at that time.",
    ];

    public int StaleMinutes => _settings.Get(SiteSettings.GaugeStaleMinutes);

    public bool IsEmpty => _cylinders.Count == 0;

    public IReadOnlyList<ShelfCylinderResponse> Cylinders => [.. _cylinders.Select(c => Response(c.Row, c.Given, c.Answer))];

    public static async Task<Shelf> ReadAsync(PlannerContext context, string siteId, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var rows = await context.Shelf.AsNoTracking().Where(c => c.SiteId == siteId).OrderBy(c => c.Tag).ToListAsync(cancellationToken);
        var ids = rows.ConvertAll(row => row.Id);
        return new(
            await SiteSettings.ReadAsync(context, siteId, cancellationToken), await CylinderChoice.ReadAsync(context, siteId, cancellationToken), rows,
            await context.FlowChecks.AsNoTracking().Where(check => ids.Contains(check.CylinderId)).ToListAsync(cancellationToken), now);
    }

    public ShelfResponse Response() => new(StaleMinutes, _settings.IsAssumed(SiteSettings.GaugeStaleMinutes), Cylinders, Cautions);

    public ShelfCylinderResponse Response(string id) => _cylinders.Where(c => c.Row.Id == id).Select(c => Response(c.Row, c.Given, c.Answer)).Single();

    /// <summary>Null where it may stand on the shelf.</summary>
    public ProblemHttpResult? WhyNot(ShelfCylinderRequest request)
    {
        if (_cylinders.Any(c => c.Row.Tag.Equals(request.Tag.Trim(), StringComparison.OrdinalIgnoreCase)))
            return Problems.Conflict(ShelfProblemCode.TagTaken, $"{request.Tag.Trim()} stands on the shelf already. Read its gauge again instead, or give the other tag.");
        return CylinderProblems.Find([request.Cylinder], "cylinder", _choice, out _) ?? WhyNotAt(request.ReadAt, null);
    }

    /// <summary>Null where the reading may be entered; then <paramref name="cylinder"/> has it.</summary>
    public ProblemHttpResult? WhyNot(string id, GaugeReadingRequest reading, out string cylinder)
    {
        var (row, given, _) = _cylinders.Single(c => c.Row.Id == id);
        var next = given with { GaugePsi = reading.GaugePsi, GaugeBar = reading.GaugeBar, GaugeKpa = reading.GaugeKpa };
        cylinder = TextOf(next);
        return next.Find(_choice) is CylinderAnswer.Refused { Member: var member, Words: var words }
            ? Problems.Invalid(JsonErrors.CamelCase(member), words)
            : WhyNotAt(reading.ReadAt, row.ReadAt);
    }

    /// <summary>The fewest cylinders with which a journey meets the site's rule, from those whose reading is not stale.</summary>
    public SmallestSetResponse Smallest(GasDemand demand, decimal journeyMinutes)
    {
        var counted = _cylinders.Where(c => c.Answer is CylinderAnswer.Found && !IsStale(c.Row)).ToList();
        var leftOut = _cylinders.Except(counted).Select(c => new LeftOutResponse(
            c.Row.Tag, c.Answer is CylinderAnswer.Found ? $"its reading is {AgeOf(c.Row)} min old" : ProblemOf(c.Answer)!)).ToList();
        var set = ShelfSet.Smallest(new()
        {
            Demand = demand,
            JourneyMinutes = journeyMinutes,
            Rules = RulesOf(_settings),
            Cylinders = [.. counted.Select(c => ((CylinderAnswer.Found)c.Answer).Cylinder)],
        });
        return set switch
        {
            ShelfSet.Found found => new(
                true, [.. found.Places.Select(place => counted[place].Row.Tag)], GasSupplyResponse.From(found.Supply), null, null, null, null, leftOut),
            ShelfSet.TooLittle no => new(false, [], null, no.Gas, no.NeededLitres, no.ThereLitres, no.Working, leftOut),
            _ => throw new InvalidOperationException($"{set} is no answer."),
        };
    }

    public static string TextOf(CylinderRequest cylinder) => JsonSerializer.Serialize(cylinder, Json);

    private static IReadOnlyList<ReserveRule> RulesOf(SiteSettings settings) => settings.Get(SiteSettings.ReserveRule) switch
    {
        ReservePolicy.TwiceTheJourney => [ReserveRule.TwiceTheJourney],
        ReservePolicy.JourneyPlus30Minutes => [ReserveRule.JourneyPlus30Minutes],
        _ => ReserveRule.SideBySide,
    };

    private static JsonSerializerOptions MakeJson()
    {
        var json = new JsonSerializerOptions(JsonSerializerDefaults.Web) { DefaultIgnoreCondition = System.Text.Json.Serialization.JsonIgnoreCondition.WhenWritingNull };
        StrictJson.Apply(json);
        return json;
    }

    private static CylinderRequest GivenOf(ShelfCylinder row) => JsonSerializer.Deserialize<CylinderRequest>(row.Cylinder, Json)!;

    private static string? ProblemOf(CylinderAnswer answer) => answer switch
    {
        CylinderAnswer.Refused refused => refused.Words,
        CylinderAnswer.NoSize no => $"{no}",
        _ => null,
    };

    private ProblemHttpResult? WhyNotAt(DateTimeOffset? readAt, DateTimeOffset? last) => readAt switch
    {
        { } at when at > _now => Problems.ImpossibleField(ShelfProblemCode.ReadingTime, "readAt", $"{at:yyyy-MM-ddTHH:mm:ssK} lies in the future. Give the time of the reading, or leave it out for now."),
        { } at when at < last => Problems.ImpossibleField(ShelfProblemCode.ReadingTime, "readAt", $"The cylinder was read later than that, at {last:yyyy-MM-ddTHH:mm:ssK}. Give the newest reading."),
        _ => null,
    };

    private bool IsStale(ShelfCylinder row) => AgeOf(row) > StaleMinutes;

    private long AgeOf(ShelfCylinder row) => (long)(_now - row.ReadAt).TotalMinutes;

    private ShelfCylinderResponse Response(ShelfCylinder row, CylinderRequest given, CylinderAnswer answer)
    {
        var cylinder = (answer as CylinderAnswer.Found)?.Cylinder;
        var amount = cylinder is null ? null : UsableGas.Of(cylinder);
        var checks = _checks[row.Id].ToList();
        return new()
        {
            Id = row.Id,
            SiteId = row.SiteId,
            Tag = row.Tag,
            Cylinder = given,
            Gauge = given.GaugeText,
            ReadAt = row.ReadAt,
            ReadBy = row.ReadBy,
            AgeMinutes = AgeOf(row),
            Stale = IsStale(row),
            UsableLitres = amount?.Litres,
            Working = amount?.Working,
            Problem = ProblemOf(answer),
            FlowChecks = [.. checks.Take(ChecksShown).Select(c => new FlowCheckResponse(c.At, c.FirstRole, c.SecondRole, c.CapOff, c.ValveOpen, c.FlowSet, c.FlowFelt))],
            Flow = FlowOf(checks),
            Version = row.Version,
        };
    }

    /// <summary>Counts the complete checks since the last that was not; an old one is asked for again.</summary>
    private string FlowOf(List<FlowCheck> checks)
    {
        if (checks.Count == 0)
            return "flow not checked: full is not flowing";
        if (!checks[0].IsComplete)
            return "the last check found no flow: do not count on it";
        var age = (long)(_now - checks[0].At).TotalMinutes;
        var old = age > StaleMinutes ? $", the last {age} min ago: check again" : "";
        return checks.TakeWhile(check => check.IsComplete).Count() == 1
            ? $"flow felt once{old}; a second check before leaving"
            : $"flow felt twice{old}";
    }
}
