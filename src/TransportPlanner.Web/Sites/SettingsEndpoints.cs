using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Sites;

internal static class SettingsEndpoints
{
    public static void MapSettings(this IEndpointRouteBuilder sites)
    {
        var settings = sites.MapGroup("/{siteId}/settings");
        settings.MapGet("", Get).WithName("getSettings")
            .WithSummary("Every setting of the site with its unit, default and range")
            .WithDescription("A default that nobody confirmed is marked assumed.")
            .ProducesProblem(404).WithExample(null, SiteExamples.Settings);
        settings.MapPut("", Replace).WithName("replaceSettings")
            .WithSummary("Replaces what the site says for itself")
            .WithDescription("A setting that is left out returns to its default.")
            .ProducesProblem(404).ProducesProblem(412).ProducesProblem(428)
            .WithExample(SiteExamples.NewSettings, SiteExamples.Settings);
    }

    private static async Task<Results<Ok<SettingsResponse>, ProblemHttpResult>> Get(
        string siteId, PlannerContext context, HttpResponse response, CancellationToken cancellationToken)
    {
        var site = await context.Sites.AsNoTracking().SingleOrDefaultAsync(s => s.Id == siteId, cancellationToken);
        if (site is null)
        {
            return Problems.NoSite(siteId);
        }

        var given = await context.Settings.AsNoTracking().Where(v => v.SiteId == siteId).ToListAsync(cancellationToken);
        response.SetEntityTag(site.SettingsVersion);
        return TypedResults.Ok(Response(given));
    }

    private static async Task<Results<Ok<SettingsResponse>, ProblemHttpResult>> Replace(
        string siteId, SettingsRequest request, PlannerContext context, HttpRequest http, HttpResponse response, CancellationToken cancellationToken)
    {
        var site = await context.Sites.SingleOrDefaultAsync(s => s.Id == siteId, cancellationToken);
        if (site is null)
        {
            return Problems.NoSite(siteId);
        }

        if (http.RefuseUnlessCurrent(site.SettingsVersion) is { } refusal)
        {
            return refusal;
        }

        var errors = Errors(request, await AddedCylinderSize.OfSiteAsync(context, siteId, cancellationToken));
        if (errors.Count > 0)
        {
            return Problems.Invalid(errors);
        }

        List<SettingValue> given =
        [
            .. request.Settings.Select(s => new SettingValue { SiteId = siteId, Name = s.Name, Value = s.Value.GetRawText(), Owner = s.Owner, Date = s.Date }),
        ];
        if (OrderErrors(new(given)) is { Count: > 0 } disorder)
        {
            return Problems.Invalid(disorder);
        }

        site.SettingsVersion++;
        var stored = await context.Settings.Where(v => v.SiteId == siteId).ToDictionaryAsync(v => v.Name, cancellationToken);
        context.RemoveRange(stored.Values.Where(v => given.All(g => g.Name != v.Name)));
        foreach (var value in given)
        {
            if (stored.TryGetValue(value.Name, out var old))
            {
                (old.Value, old.Owner, old.Date) = (value.Value, value.Owner, value.Date);
            }
            else
            {
                context.Add(value);
            }
        }

        try
        {
            await context.SaveChangesAsync(cancellationToken);
        }
        catch (DbUpdateConcurrencyException)
        {
            return Problems.Stale(await context.Sites.AsNoTracking().Where(s => s.Id == siteId).Select(s => s.SettingsVersion).SingleAsync(cancellationToken));
        }

        response.SetEntityTag(site.SettingsVersion);
        return TypedResults.Ok(Response(given));
    }

    private static Dictionary<string, string[]> Errors(SettingsRequest request, IEnumerable<AddedCylinderSize> added)
    {
        var errors = new Dictionary<string, string[]>();
        var seen = new HashSet<string>();
        List<CylinderSize> sizes = [.. added.Where(size => size.ConfirmedBy is not null).Select(size => size.ToSize().ToSize())];
        for (var i = 0; i < request.Settings.Count; i++)
        {
            var (given, path) = (request.Settings[i], $"settings[{i}]");
            var setting = SiteSettings.All.FirstOrDefault(s => s.Name == given.Name);
            if (setting is null)
            {
                errors[$"{path}.name"] = [$"There is no setting {given.Name}. GET the settings for the list."];
            }
            else if (!seen.Add(given.Name))
            {
                errors[$"{path}.name"] = [$"{given.Name} is given twice: give it once."];
            }
            else if (WhyNoPreset(setting, given.Value, sizes) is { } why)
            {
                errors[$"{path}.value"] = [$"{given.Name}: {why}"];
            }
            else if (!setting.Accepts(given.Value))
            {
                errors[$"{path}.value"] = [$"{given.Name}: give {setting.Allowed}; got {given.Value.GetRawText()}."];
            }
        }

        return errors;
    }

    /// <summary>A preset that the library does not have would be found out only by whoever stands with a cylinder.</summary>
    private static string? WhyNoPreset(Setting setting, JsonElement value, List<CylinderSize> added)
    {
        GasKind? gas = setting == SiteSettings.PresetOxygenCylinder ? GasKind.Oxygen : setting == SiteSettings.PresetAirCylinder ? GasKind.Air : null;
        return gas is { } held && value.ValueKind == JsonValueKind.String && CylinderLibrary.Find(value.GetString()!, held, added) is var lookup and not CylinderLookup.Found
            ? $"{lookup}"
            : null;
    }

    private static Dictionary<string, string[]> OrderErrors(SiteSettings settings)
    {
        string[] disorder =
        [
            .. from pace in SiteSettings.Paces
               let values = (Minimum: settings.Get(pace.Minimum), Likely: settings.Get(pace.Likely), Maximum: settings.Get(pace.Maximum))
               where !(values.Minimum <= values.Likely && values.Likely <= values.Maximum)
               select FormattableString.Invariant($"{pace.Likely.Name}: give minimum ≤ likely ≤ maximum; got {values.Minimum}, {values.Likely}, {values.Maximum} m/s."),
            .. TimelineSiteSettings.OrderErrors(settings),
        ];
        return disorder.Length == 0 ? [] : new() { ["settings"] = disorder };
    }

    private static SettingsResponse Response(IReadOnlyCollection<SettingValue> given) => new(
    [
        .. from setting in SiteSettings.All
           let value = given.FirstOrDefault(v => v.Name == setting.Name)
           select new SettingResponse
           {
               Name = setting.Name,
               Value = value is null ? setting.Default : JsonNode.Parse(value.Value),
               Unit = setting.Unit,
               Assumed = value is null,
               Owner = value?.Owner,
               Date = value?.Date,
               Default = setting.Default,
               Allowed = setting.Allowed,
               Description = setting.Description,
           },
    ]);
}
