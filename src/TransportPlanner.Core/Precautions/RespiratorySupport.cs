namespace TransportPlanner.Core.Precautions;

/// <summary>How the infant's breathing is supported: the one clinical choice that gas and kit both depend on.</summary>
public enum RespiratorySupport
{
    SelfVentilating,
    LowFlowCannula,
    HighFlowCannula,
    Cpap,
    NonInvasiveVentilation,
    BagMaskVentilation,
    InvasiveVentilation,
}
