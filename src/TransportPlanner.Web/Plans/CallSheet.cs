using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Routing;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Plans;

/// <summary>The calls of the newest version of a plan, as one request found them.</summary>
/// <remarks>A call counts while its message reads the same as in the version and for the way that was called about: a later departure opens it again.</remarks>
internal sealed class CallSheet
{
    private readonly PlannerContext _context;
    private readonly SiteDisplay _show;
    private readonly Dictionary<PlanRole, CallEntry> _rows;
    private readonly Dictionary<int, PlanResponse> _versions;

    private readonly FloorPlanSnapshot? _site;

    private CallSheet(
        PlannerContext context, FloorPlanSnapshot? site, PlanResponse plan, RouteResponse way, SiteSettings settings, Dictionary<PlanRole, CallEntry> rows, Dictionary<int, PlanResponse> versions) =>
        (_context, _site, Plan, Way, Titles, _show, _rows, _versions) = (context, site, plan, way, new(settings), SiteDisplay.Of(settings), rows, versions);

    public PlanResponse Plan { get; }

    /// <summary>The way that the messages speak of: the one that is taken.</summary>
    public RouteResponse Way { get; }
    public RoleTitles Titles { get; }

    /// <summary>Null where there is no such plan.</summary>
    public static async Task<CallSheet?> FindAsync(PlannerContext context, FloorPlanStore store, string planId, CancellationToken cancellationToken) =>
        await PlanStore.FindAsync(context, planId, null, cancellationToken) is { } plan
            ? await OfAsync(context, store.TryFind(plan.SiteId, out var site) ? site : null, plan, cancellationToken)
            : null;

    public static async Task<CallSheet> OfAsync(PlannerContext context, FloorPlanSnapshot? site, PlanResponse plan, CancellationToken cancellationToken)
    {
        var rows = await context.Calls.Where(call => call.PlanId == plan.Id).ToDictionaryAsync(call => call.Role, cancellationToken);
        Dictionary<int, PlanResponse> versions = new() { [plan.Version] = plan };
        foreach (var number in rows.Values.Select(row => row.PlanVersion).Distinct().Where(number => !versions.ContainsKey(number)).ToList())
        {
            if (await PlanStore.FindAsync(context, plan.Id, number, cancellationToken) is { } before)
            {
                versions[number] = before;
            }
        }

        var way = await WayTaken.ReadAsync(context, plan, null, cancellationToken);
        return new(context, site, plan, way, await SiteSettings.ReadAsync(context, plan.SiteId, cancellationToken), rows, versions);
    }

    public CallsResponse Answer()
    {
        CallResponse[] calls = [.. Enum.GetValues<PlanRole>().Select(Call)];
        return new() { PlanId = Plan.Id, PlanVersion = Plan.Version, Way = Way.Id, Acknowledged = calls.Count(call => call.State == CallState.Acknowledged), Calls = calls };
    }

    /// <summary>Names the plan version and the way too: a message that changed must be read again.</summary>
    public string Tag(PlanRole role) => FormattableString.Invariant($"\"{Plan.Version}.{Way.Id}.{_rows.GetValueOrDefault(role)?.Version ?? 0}\"");

    public CallResponse Call(PlanRole role)
    {
        var row = _rows.GetValueOrDefault(role);
        // Names that a newer floor plan takes away change no message that somebody was called about.
        var message = Message(Plan, Way, role, null);
        var isCalled = row?.CalledAt is not null;
        var isCurrent = isCalled && _versions.TryGetValue(row!.PlanVersion, out var before) && Message(before, WayTaken.Of(before, row.Way), role, null) == message;
        return new()
        {
            Role = role,
            Title = Titles.Of(role),
            Message = _show.Words(Message(Plan, Way, role, _site)),
            State = !isCurrent ? CallState.Open : row!.AcknowledgedAt is null ? CallState.Called : CallState.Acknowledged,
            CalledAt = isCurrent ? row!.CalledAt : null,
            AcknowledgedAt = isCurrent ? row!.AcknowledgedAt : null,
            OutOfDateSince = isCalled && !isCurrent ? row!.PlanVersion : null,
            OutOfDateWay = isCalled && !isCurrent ? row!.Way is { Length: > 0 } called ? called : WayTaken.Of(_versions.GetValueOrDefault(row.PlanVersion, Plan), null).Id : null,
            ETag = Tag(role),
        };
    }

    /// <summary>Keeps one entry; null where somebody else changed it meanwhile. Who answers was called: acknowledged says both.</summary>
    public async Task<CallResponse?> KeepAsync(PlanRole role, CallState state, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var stands = Call(role);
        if (!_rows.TryGetValue(role, out var row))
        {
            row = _rows[role] = new() { PlanId = Plan.Id, Role = role };
            _context.Add(row);
        }

        (row.PlanVersion, row.Way) = (Plan.Version, Way.Id);
        (row.CalledAt, row.AcknowledgedAt) = state switch
        {
            CallState.Called => ((DateTimeOffset?)now, (DateTimeOffset?)null),
            CallState.Acknowledged => ((DateTimeOffset?)(stands.CalledAt ?? now), (DateTimeOffset?)now),
            _ => ((DateTimeOffset?)null, (DateTimeOffset?)null),
        };
        try
        {
            await _context.SaveChangesAsync(cancellationToken);
        }
        catch (DbUpdateException)
        {
            return null;
        }

        return Call(role);
    }

    /// <summary>As the sheet and the pack print it; in a version that was made before timelines were planned, where and when it leaves.</summary>
    private string Message(PlanResponse plan, RouteResponse way, PlanRole role, FloorPlanSnapshot? site)
    {
        var sheet = new TimelineSheet(plan, way, TimelineSheet.TempoOf(plan), Titles, PlaceNames.Of(plan, site));
        return CallList.Of(sheet).FirstOrDefault(call => call.Role == role)?.Message
            ?? $"{RoleTitles.Capital(plan.CallSign)}: transport under {PlanWords.Of(plan.Precautions)} precautions, {plan.From} to {plan.To}, go {sheet.By(plan.Routes.DepartAt)}.";
    }
}
