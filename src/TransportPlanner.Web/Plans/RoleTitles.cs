using TransportPlanner.Core.Kits;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Kits;

namespace TransportPlanner.Web.Plans;

/// <summary>Roles as the site calls them, for the cards that people carry.</summary>
internal sealed class RoleTitles(SiteSettings settings)
{
    public string Lead => settings.Get(PackSettings.TeamLead);

    public string Therapist => settings.Get(PackSettings.RespiratoryTherapist);

    public string Nurse => settings.Get(PackSettings.TransportNurse);

    public string Helper => settings.Get(PackSettings.CleanHelper);

    public string Receiver => settings.Get(PackSettings.ReceivingNurse);

    public string Cleaner => settings.Get(PackSettings.EnvironmentalServices);

    public string Watcher => settings.Get(PackSettings.DoffingWatcher);

    public string Security => settings.Get(PackSettings.Security);

    public string Of(TransportRole role) => role switch
    {
        TransportRole.TeamLead => Lead,
        TransportRole.RespiratoryTherapist => Therapist,
        TransportRole.TransportNurse => Nurse,
        TransportRole.CleanHelper => Helper,
        TransportRole.ReceivingNurse => Receiver,
        TransportRole.EnvironmentalServices => Cleaner,
        TransportRole.DoffingWatcher => Watcher,
        _ => KitWords.Of(role),
    };

    /// <summary>Everybody who gets a label to stick on, in the order of the journey.</summary>
    public IReadOnlyList<string> Labels => [Lead, Therapist, Nurse, Helper, Security, Receiver, Watcher, Cleaner];

    public string Of(PlanRole role) => role switch
    {
        PlanRole.TeamLead => Lead,
        PlanRole.RespiratoryTherapist => Therapist,
        PlanRole.TransportNurse => Nurse,
        PlanRole.CleanHelper => Helper,
        PlanRole.Security => Security,
        PlanRole.ReceivingNurse => Receiver,
        PlanRole.DoffingWatcher => Watcher,
        PlanRole.EnvironmentalServices => Cleaner,
        _ => throw new ArgumentOutOfRangeException(nameof(role), role, "No title for this role."),
    };

    /// <summary>With a capital letter, for the beginning of a line.</summary>
    public static string Capital(string title) => char.ToUpperInvariant(title[0]) + title[1..];
}
