using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.WebUtilities;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.FloorPlans;
using TransportPlanner.Web.Posts;
using TransportPlanner.Web.Routing;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Plans;

/// <summary>What each person holds in the hand: printed with one press, or sent as one file that needs nothing else.</summary>
internal sealed class PackModel(PlannerContext context, FloorPlanStore store, TimeProvider time, IWebHostEnvironment host, SiteDisplay show) : PageModel, IPrintedFile
{
    public PlanResponse Plan { get; private set; } = null!;
    public RouteResponse Way { get; private set; } = null!;

    /// <summary>The way that calls, desk and officers' lists speak of.</summary>
    public RouteResponse Taken { get; private set; } = null!;
    public RouteStrip Strip { get; private set; } = null!;

    /// <summary>Flags of the places by number; empty where a newer floor plan is in force.</summary>
    public IReadOnlyDictionary<string, PlaceFlags> Flags { get; private set; } = new Dictionary<string, PlaceFlags>();
    public RoleTitles Titles { get; private set; } = null!;

    /// <summary>Names of places by their numbers, as far as the plan or the floor plan of its version knows them.</summary>
    public IReadOnlyDictionary<string, string> Names { get; private set; } = null!;

    /// <summary>At the tempo that was asked for, else urgent where the team leaves now.</summary>
    public TimelineSheet Timeline { get; private set; } = null!;
    public RouteGasResponse Gas => Plan.GasByRoute.First(gas => gas.Route == Way.Id);
    public BatterySheet Batteries => new(Plan.Batteries, Plan.BatteriesByRoute.FirstOrDefault(batteries => batteries.Route == Way.Id));
    public IReadOnlyList<GasStrip> GasStrips => GasStrip.Of(Plan, Gas);

    /// <summary>The go from which every sheet of the pack counts.</summary>
    public DateTimeOffset Go => Timeline.Go;

    /// <summary>What is held on the way, moved with go; null in a version that was made before posts were planned.</summary>
    public RoutePostsResponse? Posts => Timeline.Posts;

    /// <summary>A card for each officer who has a post, and for each who is left without one.</summary>
    public IEnumerable<PostCard> PostCards => Posts is { } posts ? PostCard.Of(posts, Timeline, Titles, SecurityContact) : [];

    public string? ElevatorRescueNumber { get; private set; }
    public string? SecurityContact { get; private set; }
    public string? Notice { get; private set; }
    /// <summary>Where the way comes upon other transports as of this page; null where it does not.</summary>
    public string? OtherTransport => Plan.Overlaps.FirstOrDefault(overlaps => overlaps.Route == Way.Id) is { } overlaps
        ? OverlapWords.OnCard(overlaps, Plan.TimeZone) : null;
    public bool IsVoid { get; private set; }

    /// <summary>What replaced this version; null where it is the newest.</summary>
    public NewerVersion? Newer { get; private set; }

    private IReadOnlyList<ClosedOnWay> Closed { get; set; } = [];

    /// <summary>What was taken out of use on the way since the plan was made; null where nothing was.</summary>
    public string? ClosedOnWay => string.Join("; ", Closed.Where(closed => closed.Ways.Any(way => way.Way == Way.Id)).Select(closed => BinderWords.Of(closed.Closure, Plan.TimeZone)))
        is { Length: > 0 } words ? words : null;

    /// <summary>Other transports of the site that leave within a day: their posts may need the same officers.</summary>
    public int OtherTransports { get; private set; }

    /// <summary>The instant of this page: a print from it is not older.</summary>
    public DateTimeOffset PrintedAt { get; private set; }
    public PackSheet? Only { get; private set; }

    /// <summary>Styles of the file to send; null on the page, which links them.</summary>
    public string? Styles { get; private set; }
    public string FileCaution => PackText.Of(PackTexts.FileCaution, Time(PrintedAt));

    /// <summary>What was asked for instead of a sheet; null where it is one, or none was.</summary>
    public string? UnknownSheet { get; private set; }

    private int? Version { get; set; }
    private Tempo? GivenTempo { get; set; }

    public bool Shows(PackSheet sheet) => Only is null || Only == sheet;

    public string Time(DateTimeOffset instant) => PackWords.Time(instant, Plan.TimeZone);

    /// <summary>For what is expected at an instant, or is not before it.</summary>
    public string NextMinute(DateTimeOffset instant) => PackWords.NextMinute(instant, Plan.TimeZone);

    /// <summary>This pack with another sheet; an older version stays that version.</summary>
    public string Address(PackSheet? sheet, bool asFile = false) => At($"/plans/{Plan.Id}/pack", ("only", sheet?.ToString()), ("file", asFile ? "true" : null));

    public string SheetAddress => At($"/plans/{Plan.Id}");

    public async Task<IActionResult> OnGetAsync(string id, string? way, int? version, PackSheet? only, bool file, Tempo? tempo, CancellationToken cancellationToken)
    {
        if (await PlanStore.FindAsync(context, id, version, cancellationToken) is not { } plan)
        {
            return NotFound();
        }

        plan = await PlanOverlaps.AddAsync(context, store, plan, cancellationToken);
        var settings = await SiteSettings.ReadAsync(context, plan.SiteId, cancellationToken);
        (Plan, Version, Only, PrintedAt, GivenTempo) = (plan, version, only, time.GetUtcNow(), tempo);
        var taken = await WayTaken.ReadAsync(context, plan, null, cancellationToken);
        Way = plan.Routes.Routes.FirstOrDefault(r => r.Id == way) ?? taken;
        // Of an older version nobody speaks any more.
        Taken = version is null ? taken : Way;
        UnknownSheet = PlanWords.NotRead(this, "only");
        IsVoid = PrintedAt > plan.VoidAfter;
        Newer = await NewerVersion.OfAsync(context, plan, cancellationToken);
        OtherTransports = (await PlansInForce.KeysAsync(context, plan.SiteId, PrintedAt, PrintedAt.AddDays(1), cancellationToken)).Count(other => other.Id != plan.Id);
        Titles = new(settings);
        (ElevatorRescueNumber, SecurityContact) = (settings.Get(PackSettings.ElevatorRescueNumber), settings.Get(PackSettings.SecurityContact));
        store.TryFind(plan.SiteId, out var site);
        Notice = site?.Plan.Notice;
        Closed = site is null ? [] : await ClosedWays.OnAsync(context, plan, site.Plan, cancellationToken);
        Flags = site?.Plan.Version == plan.Routes.FloorPlanVersion ? site.Plan.Places.ToDictionary(place => place.Number, place => place.Flags) : Flags;
        Names = PlaceNames.Of(plan, site);
        Strip = RouteStrip.Of(Way, Names, show);
        Timeline = new(plan, Way, tempo ?? TimelineSheet.TempoOf(plan), Titles, Names);
        if (file)
        {
            Styles = await PrintedFile.StylesAsync(host, cancellationToken);
            Response.Headers.ContentDisposition = $"attachment; filename=\"{plan.CallSign.Replace(' ', '-')}-pack-{plan.Version}.html\"";
        }

        return Page();
    }

    private string At(string path, params (string Name, string? Value)[] more) =>
        QueryHelpers.AddQueryString(path, new[] { ("way", (string?)Way.Id), ("version", Version?.ToString(CultureInfo.InvariantCulture)), ("tempo", GivenTempo?.ToString()) }.Concat(more)
            .Where(parameter => parameter.Item2 is not null).Select(parameter => KeyValuePair.Create(parameter.Item1, parameter.Item2)));
}
