using TransportPlanner.Core.Kits;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Kits;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Plans;

/// <summary>Roles as the site calls them, for the cards that people carry.</summary>
internal sealed class RoleTitles(SiteSettings settings)
{
    public string Lead => Title(PackSettings.TeamLead, WordTexts.RoleTeamLead);

    public string Therapist => Title(PackSettings.RespiratoryTherapist, WordTexts.RoleRespiratoryTherapist);

    public string Nurse => Title(PackSettings.TransportNurse, WordTexts.RoleTransportNurse);

    public string Helper => Title(PackSettings.CleanHelper, WordTexts.RoleCleanHelper);

    public string Receiver => Title(PackSettings.ReceivingNurse, WordTexts.RoleReceivingNurse);

    public string Cleaner => Title(PackSettings.EnvironmentalServices, WordTexts.RoleEnvironmentalServices);

    public string Watcher => Title(PackSettings.DoffingWatcher, WordTexts.RoleWatcher);

    public string Security => Title(PackSettings.Security, WordTexts.RoleSecurity);

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

    /// <summary>As the site said; where it has not, the assumed title in the language of the page.</summary>
    private string Title(Setting<string> title, string assumed) => settings.IsAssumed(title) ? assumed : settings.Get(title);

    /// <summary>With a capital letter, for the beginning of a line.</summary>
    public static string Capital(string title) => char.ToUpperInvariant(title[0]) + title[1..];
}
