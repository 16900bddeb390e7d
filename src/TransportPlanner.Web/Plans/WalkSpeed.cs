using System.Collections.Immutable;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.Travel;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>A place that the way crosses straight on, level and long enough to be timed.</summary>
/// <param name="Crossing">Its number along the way, from 0.</param>
/// <param name="Place">Number of the place.</param>
/// <param name="From">The place before it.</param>
/// <param name="To">The place behind it.</param>
/// <param name="Metres">Between its two doors.</param>
public sealed record StraightWalk(int Crossing, string Place, string From, string To, double Metres)
{
    /// <summary>Straight walks of a way, each place once. The rooms at both ends have no second door, and what is walked slowly in part says nothing of the speed straight on.</summary>
    public static IEnumerable<StraightWalk> Of(RouteResponse way) =>
        (from index in Enumerable.Range(0, way.Crossings.Count)
         let crossing = way.Crossings[index]
         where index > 0 && index < way.Crossings.Count - 1 && crossing.SlowMetres == 0 && crossing.Metres >= WalkTime.MinMetres
         select new StraightWalk(index, crossing.Place, way.Crossings[index - 1].Place, way.Crossings[index + 1].Place, crossing.Metres)).DistinctBy(walk => walk.Place);
}

/// <summary>The walks timed at a site, the speed that they give, and whether plans are made with it.</summary>
internal sealed class WalkSpeed
{
    private readonly PlannerContext _context;
    private readonly Site _site;
    private readonly DateOnly _today;

    private WalkSpeed(PlannerContext context, Site site, SiteSettings settings, DateOnly today)
    {
        (_context, _site, _today) = (context, site, today);
        Times = settings.Get(UpkeepSettings.WalkTimes);
        Pace = MeasuredPace.Of(Times);
        InForce = UpkeepSettings.MeasuredSpeedInForce(settings);
        Planned = WayWorking.Text($"{settings.Get(SiteSettings.IncubatorSpeedMinimum):0.##} to {settings.Get(SiteSettings.IncubatorSpeedMaximum):0.##} m/s, likely {settings.Get(SiteSettings.IncubatorSpeedLikely):0.##}");
        IsAssumed = settings.IsAssumed(SiteSettings.IncubatorSpeedLikely);
        Slow = settings.Get(SiteSettings.IncubatorSlowSpeedLikely);
    }

    public ImmutableArray<WalkTime> Times { get; }

    /// <summary>Null where nothing was timed.</summary>
    public MeasuredPace? Pace { get; }

    /// <summary>The measurement with which plans are made; null where they are not.</summary>
    public MeasuredPace? InForce { get; }

    /// <summary>The speed with which plans are made, in words.</summary>
    public string Planned { get; }
    public bool IsAssumed { get; }

    /// <summary>Likely speed in turns and over thresholds, which is not timed.</summary>
    public double Slow { get; }
    public bool CanConfirm => Pace is { Count: >= MeasuredPace.MinCount } && Pace != InForce;

    // The site first: whoever changes a setting afterwards raises its version, and what was computed from older values is not kept.
    public static async Task<WalkSpeed> ReadAsync(PlannerContext context, string siteId, DateOnly today, CancellationToken cancellationToken)
    {
        var site = await context.Sites.SingleAsync(site => site.Id == siteId, cancellationToken);
        return new(context, site, await SiteSettings.ReadAsync(context, siteId, cancellationToken), today);
    }

    public static bool IsRole(string? by) => by is { Length: > 0 and <= 80 } && !by.Any(char.IsControl);

    public static string Words(WalkTime time) =>
        WayWorking.Text($"{time.Place}, from {time.From} to {time.To}: {time.Metres:0.0} m in {time.Seconds:0.0} s, {time.Speed():0.00} m/s; {time.By}, {time.Date:yyyy-MM-dd}");

    /// <returns>Why it was not kept; null where it was.</returns>
    public async Task<string?> KeepAsync(StraightWalk straight, string? seconds, string? by, CancellationToken cancellationToken)
    {
        var isFigure = double.TryParse(seconds?.Trim().Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var figure);
        WalkTime time = new()
        {
            Place = straight.Place,
            From = straight.From,
            To = straight.To,
            Metres = straight.Metres,
            Seconds = isFigure ? figure : double.NaN,
            By = by ?? "",
            Date = _today,
        };
        return time.WhyRefused() is var (member, why) ? $"{straight.Place}, {(member == nameof(WalkTime.By) ? "who times" : member.ToLowerInvariant())}: {why}"
            : MeasuredPace.WhyOutlier(time, Times) is { } outlier ? $"{straight.Place}, seconds: {outlier}"
            : Times.Length >= UpkeepSettings.MaxWalkTimes ? $"{Times.Length} walks are kept, which is the limit: take old ones away."
            : await WriteAsync(by!, [(UpkeepSettings.WalkTimes, Times.Add(time))], cancellationToken);
    }

    /// <returns>Why it stays; null where it is gone.</returns>
    public async Task<string?> TakeAwayAsync(int index, string words, string? by, CancellationToken cancellationToken) =>
        !IsRole(by) ? "Say who takes it away: a role of at most 80 characters, never a name."
        : index < 0 || index >= Times.Length || Words(Times[index]) != words ? "Somebody changed the walks meanwhile: look at them again."
        : await WriteAsync(by!, [(UpkeepSettings.WalkTimes, Times.RemoveAt(index))], cancellationToken);

    /// <param name="words">The speed as the person read it: another one by then is not confirmed.</param>
    /// <param name="by">The role that confirms.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>Why plans are not made with it; null where they are.</returns>
    public async Task<string?> ConfirmAsync(string words, string? by, CancellationToken cancellationToken) =>
        !IsRole(by) ? "Say who confirms: a role of at most 80 characters, never a name."
        : Pace is not { Count: >= MeasuredPace.MinCount } pace ? $"{MeasuredPace.MinCount} walks are needed before a speed is confirmed."
        : pace.Words() != words ? "Somebody timed or took away a walk meanwhile: look at the speed again."
        : await WriteAsync(
            by!,
            [
                (SiteSettings.IncubatorSpeedMinimum, pace.Slowest), (SiteSettings.IncubatorSpeedLikely, pace.Median), (SiteSettings.IncubatorSpeedMaximum, pace.Fastest),
                (UpkeepSettings.MeasuredIncubatorSpeed, pace),
            ],
            cancellationToken);

    private async Task<string?> WriteAsync(string by, IEnumerable<(Setting, object)> values, CancellationToken cancellationToken) =>
        await SettingWriter.WriteAsync(_context, _site, by, _today, values, cancellationToken)
            ? null
            : "Somebody changed the settings at the same moment, so this was not taken: press again.";
}
