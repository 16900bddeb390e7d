using System.Collections.Immutable;
using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Sites;

/// <summary>What is typed for one time of the week.</summary>
public sealed class CrowdForm
{
    public CrowdKind? Kind { get; set; }
    public string? Places { get; set; }
    public IList<DayOfWeek> Days { get; set; } = [];
    public string? From { get; set; }
    public string? To { get; set; }
    public string? Times { get; set; }
    public string? Adds { get; set; }
    public string? Owner { get; set; }
    public DateOnly? Date { get; set; }
}

/// <summary>The crowd calendar of a site: looked at, added to, taken from. It is the setting crowdCalendar.</summary>
internal sealed class CrowdsModel(FloorPlanStore store, PlannerContext context, TimeProvider time) : PageModel
{
    public static IReadOnlyList<DayOfWeek> Week { get; } =
        [DayOfWeek.Monday, DayOfWeek.Tuesday, DayOfWeek.Wednesday, DayOfWeek.Thursday, DayOfWeek.Friday, DayOfWeek.Saturday, DayOfWeek.Sunday];

    [BindProperty]
    public CrowdForm Form { get; set; } = new();

    public FloorPlan Plan { get; private set; } = null!;
    public ImmutableArray<CrowdTime> Times { get; private set; } = [];
    public string? Problem { get; private set; }

    /// <summary>Today at the site.</summary>
    public DateOnly Today { get; private set; }

    public string Address => $"/crowds/{Uri.EscapeDataString(Plan.SiteId)}";

    public async Task<IActionResult> OnGetAsync(string? site, CancellationToken cancellationToken)
    {
        FloorPlanSnapshot? snapshot;
        if (site is null ? (snapshot = store.Default) is null : !store.TryFind(site, out snapshot))
        {
            return NotFound();
        }

        Plan = snapshot.Plan;
        Today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(time.GetUtcNow(), TimeZoneInfo.FindSystemTimeZoneById(Plan.TimeZone)).DateTime);
        Times = (await SiteSettings.ReadAsync(context, Plan.SiteId, cancellationToken)).Get(UpkeepSettings.CrowdCalendar);
        return Page();
    }

    public async Task<IActionResult> OnPostAddAsync(string? site, CancellationToken cancellationToken)
    {
        if (await OnGetAsync(site, cancellationToken) is not PageResult)
        {
            return NotFound();
        }

        var places = (Form.Places ?? "").Split([' ', ',', ';'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        var unknown = places.Where(number => Plan.Places.All(place => place.Number != number)).ToList();
        var entry = new CrowdTime
        {
            Kind = Form.Kind ?? CrowdKind.Other,
            Places = [.. places],
            Days = [.. Form.Days],
            FromMinute = Minutes(Form.From) ?? -1,
            ToMinute = Minutes(Form.To) is 0 ? CrowdTime.MinutesOfDay : Minutes(Form.To) ?? -1,
            Times = Figure(Form.Times, 1),
            Adds = Figure(Form.Adds, 0),
            Owner = Form.Owner?.Trim() ?? "",
            Date = Form.Date ?? Today,
        };
        Problem = Form.Kind is null ? "Choose what it is."
            : unknown.Count > 0 ? $"The plan in force has no place {string.Join(", ", unknown)}: give the numbers, with blanks between."
            : entry.WhyRefused() ?? (Times.Length >= UpkeepSettings.MaxCrowdTimes ? $"There are {Times.Length} entries, which is the limit." : null);
        return Problem is null ? await KeepAsync(Times.Add(entry), entry.Owner, cancellationToken) : Page();
    }

    /// <summary>Takes an entry away, known by its place in the list and its words: another one there by then is left alone.</summary>
    public async Task<IActionResult> OnPostRemoveAsync(string? site, int index, string words, CancellationToken cancellationToken)
    {
        if (await OnGetAsync(site, cancellationToken) is not PageResult)
        {
            return NotFound();
        }

        if (index < 0 || index >= Times.Length || Times[index].Words() != words)
        {
            Problem = "Somebody changed the calendar meanwhile: look at it again.";
            return Page();
        }

        return await KeepAsync(Times.RemoveAt(index), Times[index].Owner, cancellationToken);
    }

    /// <summary>The row of the setting answers for the whole list; who answers for an entry stands in the entry.</summary>
    private async Task<IActionResult> KeepAsync(ImmutableArray<CrowdTime> times, string owner, CancellationToken cancellationToken)
    {
        var site = await context.Sites.SingleAsync(s => s.Id == Plan.SiteId, cancellationToken);
        if (!await SettingWriter.WriteAsync(context, site, owner, Today, [(UpkeepSettings.CrowdCalendar, times)], cancellationToken))
        {
            Problem = "Somebody changed the settings at the same moment, so this was not taken: press again.";
            return Page();
        }

        return Redirect(Address);
    }

    private static int? Minutes(string? text) =>
        TimeOnly.TryParseExact(text, ["HH:mm", "H:mm"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var of) ? of.Hour * 60 + of.Minute : text == "24:00" ? CrowdTime.MinutesOfDay : null;

    /// <summary>A figure with a point or a comma; what is none is refused with the range.</summary>
    private static double Figure(string? text, double otherwise) => string.IsNullOrWhiteSpace(text) ? otherwise
        : double.TryParse(text.Trim().Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var figure) ? figure : double.NaN;
}
