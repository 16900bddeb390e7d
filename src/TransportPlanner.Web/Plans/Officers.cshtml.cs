using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Posts;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Posts;

namespace TransportPlanner.Web.Plans;

/// <summary>For security, when more than one transport runs: how few officers man the posts of all of them, or what those there are do best.</summary>
internal sealed class OfficersModel(PlannerContext context, FloorPlanStore store, TimeProvider time) : PageModel
{
    public FloorPlan Site { get; private set; } = null!;
    public DateTimeOffset AsOf { get; private set; }
    public DeskOfficers Together { get; private set; } = null!;
    public int TransportCount { get; private set; }
    public RoleTitles Titles { get; private set; } = null!;

    /// <summary>As typed, so that nothing is lost.</summary>
    public string? Count { get; private set; }

    /// <summary>As typed: numbers of places between commas.</summary>
    public string? Starts { get; private set; }

    /// <summary>What was not taken, by field; the lists then hold for as many officers as it takes.</summary>
    public (string Field, string Words)? Problem { get; private set; }

    public string Clock(DateTimeOffset instant) => PostsWords.Time(instant, Site.TimeZone);

    public async Task<IActionResult> OnGetAsync(string? site, string? count, string? starts, CancellationToken cancellationToken)
    {
        if ((site is null ? store.Default : store.TryFind(site, out var found) ? found : null) is not { } here)
        {
            return NotFound();
        }

        (Site, AsOf, Count, Starts) = (here.Plan, time.GetUtcNow(), count?.Trim(), starts?.Trim());
        Titles = new(await SiteSettings.ReadAsync(context, Site.SiteId, cancellationToken));
        var transports = await TransportBoard.TodayAsync(context, here, AsOf, cancellationToken);
        TransportCount = transports.Count;
        Together = await DeskOfficers.OfAsync(context, here, transports, Given(), cancellationToken);
        return Page();
    }

    private OfficersGiven? Given()
    {
        string[] places = [.. (Starts ?? "").Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)];
        if (string.IsNullOrEmpty(Count))
        {
            Problem = places.Length > 0 ? ("count", "Say how many officers there are, then where they start.") : null;
            return null;
        }

        if (!int.TryParse(Count, NumberStyles.None, CultureInfo.InvariantCulture, out var number) || number > OfficersGiven.MaxCount)
        {
            Problem = ("count", $"Give a whole number of officers, 0 to {OfficersGiven.MaxCount}.");
            return null;
        }

        if (places.FirstOrDefault(place => !Site.Places.Any(known => known.Number == place)) is { } unknown)
        {
            Problem = ("starts", $"{unknown} is no place of {Site.Name}. Give numbers of places, with a comma between them.");
            return null;
        }

        if (places.Length > number)
        {
            Problem = ("starts", $"{places.Length} starting places are more than {PostsWords.Officers(number)}. Give no more places than officers.");
            return null;
        }

        return new() { Count = number, Starts = [.. places], Called = AsOf };
    }
}
