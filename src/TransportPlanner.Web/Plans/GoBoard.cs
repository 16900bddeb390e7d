using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.FloorPlans;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>Why a word is not taken.</summary>
internal enum GoRefusal
{
    /// <summary>This role has said go about this version and way, and it stands.</summary>
    AlreadySaid,
    /// <summary>A closure touches the way: make the next version, or end the closure where it is wrong.</summary>
    ClosureOnWay,
    /// <summary>The plan is void: make the next version.</summary>
    PlanVoid,
    /// <summary>Go is the last word: what may have changed is answered first, about this way, with nothing changed, and its gauges are not old.</summary>
    RecheckFirst,
}

/// <summary>What was said about leaving with the newest version of a plan, as one request found it.</summary>
internal sealed class GoBoard
{
    private readonly PlannerContext _context;
    private readonly List<GoWord> _words;
    private readonly IReadOnlyList<Closure> _known;
    private readonly DateTimeOffset _now;

    private GoBoard(PlannerContext context, PlanResponse plan, List<GoWord> words, IReadOnlyList<Closure> known, int staleMinutes, DateTimeOffset now)
    {
        (_context, Plan, _words, _known, StaleMinutes, _now) = (context, plan, words, known, staleMinutes, now);
        State = StateOf();
    }

    public PlanResponse Plan { get; }
    public int StaleMinutes { get; }
    public GoState State { get; private set; }

    /// <summary>Names the version too: whoever read an older one must read again before saying go.</summary>
    public string Tag => FormattableString.Invariant($"\"{Plan.Version}.{_words.Count}\"");

    /// <summary>
    /// Null where there is no such plan. A closure that touches the way of words that stand takes them back here, once: it is kept, so that they
    /// do not come back when the closure ends.
    /// </summary>
    public static async Task<GoBoard?> FindAsync(PlannerContext context, string planId, DateTimeOffset now, CancellationToken cancellationToken) =>
        await PlanStore.FindAsync(context, planId, null, cancellationToken) is { } plan ? await OfAsync(context, plan, now, cancellationToken) : null;

    public static async Task<GoBoard> OfAsync(PlannerContext context, PlanResponse plan, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var board = await ReadAsync(context, plan, now, cancellationToken);
        if (board.State.Way is { } way && board.ClosuresOn(way).Select(closure => BinderWords.Of(closure, plan.TimeZone)).ToList() is { Count: > 0 } shut
            && !await board.AddAsync(new GoEntry.Stopped(now, plan.Version, way, StopReason.Closure), null, string.Join("; ", shut), cancellationToken))
        {
            // Somebody spoke, or took it back, at the same moment: what stands now is read again.
            context.ChangeTracker.Clear();
            return await ReadAsync(context, plan, now, cancellationToken);
        }

        return board;
    }

    /// <summary>The way that calls, cards and desk speak of: the one that was named last.</summary>
    public string WayInMind => WayTaken.Of(Plan, NamedWay).Id;

    /// <summary>Null where nobody has named a way of this version.</summary>
    private string? NamedWay => _words.LastOrDefault(word => word.PlanVersion == Plan.Version)?.Way;

    public bool IsTaken(string way) => NamedWay == way;

    public RouteResponse? Way(string id) => Plan.Routes.Routes.FirstOrDefault(route => route.Id == id);

    /// <summary>Closures in force within the hour from the departure, or from now where that is later, on what the way crosses.</summary>
    public IReadOnlyList<Closure> ClosuresOn(string way)
    {
        if (Way(way) is not { } route)
        {
            return [];
        }

        var from = _now > Plan.Routes.DepartAt ? _now : Plan.Routes.DepartAt;
        var places = route.Legs.SelectMany(leg => leg.Places).Append(Plan.From).Append(Plan.To).ToHashSet();
        var passages = route.Legs.SelectMany(leg => leg.Doors.Select(door => (string?)door.Passage).Append(leg.Passage)).ToHashSet();
        var elevators = route.Elevators.Select(ride => ride.Elevator).ToHashSet();
        return
        [
            .. _known.Where(closure => closure.Overlaps(from, from.AddHours(1)) && closure.Target switch
            {
                ClosureTarget.Place => places.Contains(closure.TargetId),
                ClosureTarget.Passage => passages.Contains(closure.TargetId),
                _ => elevators.Contains(closure.TargetId),
            }),
        ];
    }

    /// <summary>Null where a voice may be heard now.</summary>
    public GoRefusal? WhyNot(PlanRole? voice, string way) =>
        _now > Plan.VoidAfter ? GoRefusal.PlanVoid
        : ClosuresOn(way).Count > 0 ? GoRefusal.ClosureOnWay
        : State.Way == way && (voice == PlanRole.TeamLead ? State.Lead : voice == PlanRole.Security ? State.Security : null) is not null ? GoRefusal.AlreadySaid
        : voice is { } by && !GoState.Stands(State.Recheck, new GoEntry.Voice(_now, Plan.Version, way, by), TimeSpan.FromMinutes(StaleMinutes)) ? GoRefusal.RecheckFirst
        : null;

    /// <summary>Keeps one word; false where somebody else spoke meanwhile.</summary>
    public async Task<bool> AddAsync(GoEntry entry, PlanRole? role, string? words, CancellationToken cancellationToken)
    {
        var word = GoWord.Of(Plan.Id, _words.Count + 1, entry, role, words);
        _context.Add(word);
        try
        {
            await _context.SaveChangesAsync(cancellationToken);
        }
        catch (DbUpdateException)
        {
            return false;
        }

        _words.Add(word);
        State = StateOf();
        return true;
    }

    public GoResponse Answer() => new()
    {
        PlanId = Plan.Id,
        PlanVersion = Plan.Version,
        Way = State.Way,
        WayTaken = WayInMind,
        IsWayChosen = NamedWay is not null,
        GivenAt = State.GivenAt,
        Missing = State.Missing,
        Recheck = State.Recheck is { } recheck
            ? new(recheck.By, recheck.At, recheck.Changed, _words.Last(word => word.Kind == GoWordKind.Recheck && word.At == recheck.At).Words ?? "")
            : null,
        TeamLeadAt = State.Lead?.At,
        SecurityAt = State.Security?.At,
        TakenBack = TakenBack(),
        Closures = [.. ClosuresOn(WayInMind).Select(closure => BinderWords.Of(closure, Plan.TimeZone))],
        StaleMinutes = StaleMinutes,
        VoidAfter = Plan.VoidAfter,
        ETag = Tag,
    };

    /// <summary>Why a voice that was heard stands no longer.</summary>
    private string? TakenBack()
    {
        if (!State.IsTakenBack)
        {
            return null;
        }

        var last = _words.Last(word => word.Kind == GoWordKind.Voice);
        if (last.PlanVersion != Plan.Version)
        {
            return $"Go was said about version {last.PlanVersion}. Version {Plan.Version} was made since and takes it back.";
        }

        var by = _words.LastOrDefault(word => word.Number > last.Number && (word.Kind == GoWordKind.Stop || word.Changed.Length > 0));
        var at = by is null ? "" : FloorPlanWords.LocalTime(by.At, Plan.TimeZone);
        return by switch
        {
            null => $"Go was said about way {last.Way}; what was said since is about another way and takes it back.",
            { Kind: GoWordKind.Recheck } => $"The re-check at {at} found a change and takes both voices back.",
            { Role: null } => $"A closure on the way takes both voices back, {at}: {by.Words}.",
            _ => $"Stop was said at {at} and takes both voices back.",
        };
    }

    private GoState StateOf() => GoState.Of(_words.Select(word => word.Read()), Plan.Version, Plan.VoidAfter, TimeSpan.FromMinutes(StaleMinutes), _now);

    private static async Task<GoBoard> ReadAsync(PlannerContext context, PlanResponse plan, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var words = await context.GoWords.AsNoTracking().Where(word => word.PlanId == plan.Id).OrderBy(word => word.Number).ToListAsync(cancellationToken);
        var known = await context.Closures.AsNoTracking().Where(closure => closure.SiteId == plan.SiteId && closure.To > now).ToListAsync(cancellationToken);
        var settings = await SiteSettings.ReadAsync(context, plan.SiteId, cancellationToken);
        return new(context, plan, words, [.. known.Select(closure => closure.ToClosure())], settings.Get(SiteSettings.GaugeStaleMinutes), now);
    }
}
