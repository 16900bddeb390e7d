namespace TransportPlanner.Core.Plans;

/// <summary>Everybody who is called for a transport: roles, never persons.</summary>
public enum PlanRole
{
    TeamLead,
    RespiratoryTherapist,
    TransportNurse,
    CleanHelper,
    Security,
    ReceivingNurse,
    DoffingWatcher,
    EnvironmentalServices,
}
