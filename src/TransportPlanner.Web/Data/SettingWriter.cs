using System.Text.Json;
using Microsoft.EntityFrameworkCore;

namespace TransportPlanner.Web.Data;

/// <summary>Settings that a page keeps for a site, all of them or none.</summary>
internal static class SettingWriter
{
    /// <param name="context">Where they are kept.</param>
    /// <param name="site">Read before the values were computed: whoever changes a setting in between makes this false.</param>
    /// <param name="owner">The role that answers for them.</param>
    /// <param name="date">Today at the site.</param>
    /// <param name="values">Each setting with its value.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>False where somebody changed the settings at the same moment: nothing is kept.</returns>
    public static async Task<bool> WriteAsync(
        PlannerContext context, Site site, string owner, DateOnly date, IEnumerable<(Setting Setting, object Value)> values, CancellationToken cancellationToken)
    {
        site.SettingsVersion++;
        foreach (var (setting, value) in values)
        {
            var json = JsonSerializer.Serialize(value, UpkeepSettings.CrowdJson);
            var row = await context.Settings.SingleOrDefaultAsync(v => v.SiteId == site.Id && v.Name == setting.Name, cancellationToken);
            if (row is null)
            {
                context.Add(new SettingValue { SiteId = site.Id, Name = setting.Name, Value = json, Owner = owner, Date = date });
            }
            else
            {
                (row.Value, row.Owner, row.Date) = (json, owner, date);
            }
        }

        try
        {
            await context.SaveChangesAsync(cancellationToken);
            return true;
        }
        catch (DbUpdateException)
        {
            context.ChangeTracker.Clear();
            return false;
        }
    }
}
