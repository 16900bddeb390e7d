using System.ComponentModel.DataAnnotations;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Plans;

/// <summary>What the standing plans are made for. What is left out is the default, which every sheet names.</summary>
public sealed record BinderRequest
{
    internal const string TimeFormat = "HH:mm";
    private const string QuarterHour = "^([01][0-9]|2[0-3]):(00|15|30|45)$";
    private const string QuarterHourFix = "Give a quarter-hour of the site's local time, such as 02:15.";

    /// <summary>Precautions that the ways are planned under, at least one. Left out: airborne, under which most is held.</summary>
    [MinLength(1, ErrorMessage = "Give at least one of contact, droplet, airborne, or leave it out.")]
    public IReadOnlyList<Precaution> Precautions { get; init; } = [Precaution.Airborne];

    /// <summary>The support whose highest listed flow decides the least gauges. Left out: the one with the highest listed flow of all.</summary>
    public RespiratorySupport? Support { get; init; }

    /// <summary>Day of the week whose crowds and waits are taken. Left out: wednesday.</summary>
    public DayOfWeek Weekday { get; init; } = DayOfWeek.Wednesday;

    /// <summary>The day's quarter-hour, local time. Left out: 10:00.</summary>
    [RegularExpression(QuarterHour, ErrorMessage = QuarterHourFix)]
    public string DayTime { get; init; } = "10:00";

    /// <summary>The night's quarter-hour, local time. Left out: 02:00.</summary>
    [RegularExpression(QuarterHour, ErrorMessage = QuarterHourFix)]
    public string NightTime { get; init; } = "02:00";
}

/// <summary>Where the making of a binder stands.</summary>
public enum BinderProgress
{
    /// <summary>Nobody has asked for one.</summary>
    None,
    /// <summary>It is being made; the one before stays readable.</summary>
    Making,
    Made,
    /// <summary>A person stopped it.</summary>
    Stopped,
    /// <summary>A fault of the planner ended it; the log holds it.</summary>
    Failed,
}

/// <summary>The standing plans of a site and where their making stands.</summary>
public sealed record BinderResponse
{
    /// <summary>Slug of the site.</summary>
    public required string SiteId { get; init; }

    /// <summary>none, making, made, stopped or failed.</summary>
    public required BinderProgress Progress { get; init; }

    /// <summary>Sheets done so far; counts while it is being made.</summary>
    public required int SheetsDone { get; init; }

    /// <summary>Sheets of the whole set.</summary>
    public required int SheetsInAll { get; init; }

    /// <summary>What was chosen; null until somebody chose.</summary>
    public required BinderRequest? Choices { get; init; }

    /// <summary>The last set that was made to its end; null where there is none.</summary>
    public required BinderSetResponse? Set { get; init; }

    internal static BinderResponse From(string siteId, BinderState state, IReadOnlyList<string> stale) => new()
    {
        SiteId = siteId,
        Progress = BinderWords.ProgressOf(state),
        SheetsDone = state.Done,
        SheetsInAll = state.Of,
        Choices = state.Choices,
        Set = state.Made is { } made ? BinderSetResponse.From(made, stale) : null,
    };
}

/// <summary>A set of standing plans.</summary>
public sealed record BinderSetResponse
{
    /// <summary>Version of the floor plan that it was made for.</summary>
    public required int FloorPlanVersion { get; init; }

    /// <summary>When it was made.</summary>
    public required DateTimeOffset MadeAt { get; init; }

    /// <summary>What has changed since, a sentence each; empty where nothing has. It is then made again by itself within a minute.</summary>
    public required IReadOnlyList<string> Stale { get; init; }

    /// <summary>The flow and where it is listed, and what is not counted.</summary>
    public required IReadOnlyList<string> Demand { get; init; }

    /// <summary>Closures that every sheet leads round.</summary>
    public required IReadOnlyList<string> Closures { get; init; }

    /// <summary>By pair, the day before the night.</summary>
    public required IReadOnlyList<StandingPlanResponse> Sheets { get; init; }

    internal static BinderSetResponse From(Binder made, IReadOnlyList<string> stale) => new()
    {
        FloorPlanVersion = made.Plan.Version,
        MadeAt = made.MadeAt,
        Stale = stale,
        Demand = BinderWords.Demand(made),
        Closures = [.. made.Shut.Select(closure => BinderWords.Of(closure, made.Plan.TimeZone))],
        Sheets = [.. made.Sheets.Select(StandingPlanResponse.Of)],
    };
}

/// <summary>One standing plan in figures; the page prints it whole.</summary>
public sealed record StandingPlanResponse
{
    /// <summary>Number of the pair with D for the day or N for the night, as printed: 7D.</summary>
    public required string Sheet { get; init; }

    /// <summary>Number of the place where it starts.</summary>
    public required string From { get; init; }

    /// <summary>Number of the place where it ends.</summary>
    public required string To { get; init; }

    /// <summary>The departure that was planned.</summary>
    public required DateTimeOffset DepartAt { get; init; }

    /// <summary>Why there is no way; null where there is one, and then the figures are given.</summary>
    public required string? NoWay { get; init; }

    /// <summary>Half of such journeys take no longer.</summary>
    public required int? UsualSeconds { get; init; }

    /// <summary>Nine in ten take no longer.</summary>
    public required int? NearlyAlwaysSeconds { get; init; }

    /// <summary>Latest expected arrival when one element of the way fails; null also where no failure leaves a way.</summary>
    public required double? WorstPlanBSeconds { get; init; }

    /// <summary>Elements without which no way leads there.</summary>
    public required IReadOnlyList<string> SinglePoints { get; init; }

    /// <summary>The fewest officers that man every post.</summary>
    public required int? Officers { get; init; }

    /// <summary>Least reading of one cylinder per size that meets the site's strictest rule.</summary>
    public required IReadOnlyList<LeastGaugeResponse> LeastGauges { get; init; }

    internal static StandingPlanResponse Of(StandingSheet sheet) => new()
    {
        Sheet = sheet.Id,
        From = sheet.Pair.From,
        To = sheet.Pair.To,
        DepartAt = sheet.At,
        NoWay = sheet.NoWay?.Sentence,
        UsualSeconds = sheet.Way?.UsualSeconds,
        NearlyAlwaysSeconds = sheet.Way?.NearlyAlwaysSeconds,
        WorstPlanBSeconds = sheet.Way?.WorstPlanBSeconds,
        SinglePoints = [.. sheet.Way?.PlanB.Where(fallback => fallback.ArrivalSeconds is null).Select(fallback => fallback.Failed) ?? []],
        Officers = sheet.Posts?.FewestOfficers,
        LeastGauges = sheet.Gas?.LeastGauges ?? [],
    };
}
